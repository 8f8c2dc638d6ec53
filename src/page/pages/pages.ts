import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { compress } from 'hono/compress'
import type { AccessRefusal } from '../../access/guard.ts'
import { readComparison } from '../../estimate/questions/read-comparison.ts'
import type { Fault } from '../../measure/fault.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { isProjectId } from '../../projects/ids.ts'
import type { Project, StoredPlan } from '../../projects/store.ts'
import { extensionOf } from '../../shed/extension-of.ts'
import type { Stock } from '../../shed/stock.ts'
import { Elsewhere } from '../../workers/elsewhere.ts'
import { checkPage } from '../check/check-page.ts'
import { checkFieldsOf } from '../check/read-check.ts'
import { mountCopies } from '../copies/mount-copies.ts'
import { type FigureButton, figuresTyped, readFigureButton } from '../figures/figure-fields.ts'
import { tryFigure } from '../figures/try-figure.ts'
import { asMeant, SHOWN_IN } from '../form/bare-numbers.ts'
import { type FormPart, formOfFields, formOfPlan, planOfForm, rowsPosted } from '../form/plan-form.ts'
import { planShape } from '../form/plan-shape.ts'
import { blankForm, readRowChange, withoutBlankRows, withRowChange } from '../form/rows.ts'
import { ROWS_FILE, readRowsImport, withPasted, withRowsImported } from '../form/rows-from-table.ts'
import { html } from '../html.ts'
import { comparisonAsked, type MetalToCompare, metalPricesIn, metalsOf } from '../metals/metals-to-compare.ts'
import { SCRIPT, SCRIPT_PATH } from '../script-file.ts'
import { RAIL_AT } from '../sheets/garden/gap-question.ts'
import { readRemedy, withRemedy } from '../sheets/line/remedy.ts'
import { ANY_SHEET, isSheet, type SheetName } from '../sheets/sheet-names.ts'
import { readLengthsIn } from '../show-length.ts'
import { STYLESHEET, STYLESHEET_PATH } from '../stylesheet.ts'
import { fieldsOf, fileIn, plainText, type ShownStatus, show } from './answering.ts'
import { mountBuyingPages } from './buying-pages.ts'
import type { Conflict } from './conflict.ts'
import { DEMO_PLAN } from './demo-plan.ts'
import { mountFinishedPages } from './finished-pages.ts'
import { documentOf } from './frame.ts'
import { welcome } from './home-page.ts'
import { answerPageFailure } from './page-failures.ts'
import {
  COPY_TOO_LARGE,
  FOREIGN,
  NO_FORM,
  NO_PAGE,
  NO_PLAN,
  TOO_LARGE,
  TOO_MANY_KEYS,
  UNKNOWN_HOST,
} from './plain-pages.ts'
import { planDifferences } from './plan-differences.ts'
import { type PlanPage, planPage, type Saved, type SaveFields } from './plan-page.ts'
import { POLICY } from './policy.ts'
import { mountPreview } from './preview.ts'
import { mountSidePages, type PageDeps } from './side-pages.ts'
import { askToSignIn, mountSignIn } from './sign-in-page.ts'
import { inUnitsOf, unitsOf } from './units-of-plan.ts'
import { type WorkedPlan, workOut } from './worked-plan.ts'

/** The largest plan that the service accepts is about half of this as a form. */
const LARGEST_FORM_BYTES = 8 * 1024 * 1024

/** Of all tables together; a plan with more is refused, and a page with them would be of no use. */
const MOST_ROWS = LIMITS.elements + LIMITS.gradePoints + LIMITS.breaks + 1_000
/** A copy of everything that is sent by a form is in memory for a moment; larger ones are restored by the program. */
const LARGEST_COPY_BYTES = 64 * 1024 * 1024

const PLANS_LISTED = 20
const NAME_LONGEST = 200
const NOTES_LONGEST = 10_000

/** The web page. Everything works without its script. Mounted at the root. */
export function createPage(deps: PageDeps): Hono {
  const { store, workers } = deps
  const page = new Hono()

  for (const [path, text, type] of [
    [STYLESHEET_PATH, STYLESHEET, 'text/css'],
    [SCRIPT_PATH, SCRIPT, 'text/javascript'],
  ] as const)
    page.get(path, (c) =>
      c.body(text, 200, {
        'Content-Type': `${type}; charset=utf-8`,
        'Cache-Control': 'public, max-age=31536000, immutable',
        'X-Content-Type-Options': 'nosniff',
      }),
    )

  const paths = [
    '/',
    '/preview',
    '/demo/*',
    '/sheets/*',
    '/check',
    '/shed',
    '/plans/*',
    '/copies',
    '/deleted',
    '/sign-in',
    '/sign-out',
  ]
  for (const path of paths) {
    page.use(path, compress())
    page.use(path, async (c, next) => {
      await next()
      c.header('Content-Security-Policy', POLICY)
      c.header('X-Content-Type-Options', 'nosniff')
      if (c.res.headers.get('cache-control') === 'no-store') return
      c.header('Referrer-Policy', 'same-origin')
      c.header('Cache-Control', 'private, no-cache')
    })
    const [maxSize, tooLarge] =
      path === '/copies' ? [LARGEST_COPY_BYTES, COPY_TOO_LARGE] : [LARGEST_FORM_BYTES, TOO_LARGE]
    page.use(path, bodyLimit({ maxSize, onError: (c) => show(c, tooLarge, 413) }))
  }

  // What belongs in a worker thread is for the whole app to give there.
  page.onError((error, c) => {
    if (error instanceof Elsewhere) throw error
    return answerPageFailure(error, c)
  })

  page.get('/', async (c) => {
    const after = c.req.query('after')
    const plans = await store.list({ limit: PLANS_LISTED, after: after && isProjectId(after) ? after : null })
    const deleted = await store.list({ limit: 1, after: null, deleted: true })
    const saveFields = { name: '', notes: '', lengthsIn: readLengthsIn(c.req.query('show')) }
    return show(c, {
      title: 'Rails, bends, cuts and costs',
      main: html`${welcome({ ...plans, anyDeleted: deleted.items.length > 0 })}${planPage({ ...BLANK, form: blankForm(), saveFields, belowHeading: true })}`,
    })
  })

  for (const path of ['/demo', `/demo/:sheet{${ANY_SHEET}}`])
    page.get(path, async (c) => {
      const saveFields = { name: '', notes: '', lengthsIn: readLengthsIn(c.req.query('show')) }
      return showPlan(c, await workedPage(c, DEMO_PLAN, saveFields, null, '/demo'))
    })

  /** The sheets of a plan that is not saved are answers to its form and cannot be opened by themselves. */
  page.get(`/sheets/:sheet{${ANY_SHEET}}`, (c) => c.redirect('/#plan', 303))

  page.get('/check', async (c) => {
    const fields = checkFieldsOf((name) => c.req.query(name))
    const { main, complete } = await checkPage(fields, readLengthsIn(c.req.query('show')), async (input) =>
      workers.checkBend(input),
    )
    return show(c, { title: 'Check a bend or a laid curve', main }, complete ? 200 : 422)
  })

  for (const path of ['/plans/:id', `/plans/:id/:sheet{${ANY_SHEET}}`])
    page.get(path, async (c) => {
      const project = await store.get(c.req.param('id') ?? '')
      return project ? showProject(c, project, project) : show(c, NO_PLAN, 404)
    })

  for (const path of ['/plans/:id/revisions/:revision', `/plans/:id/revisions/:revision/:sheet{${ANY_SHEET}}`])
    page.get(path, async (c) => {
      const id = c.req.param('id') ?? ''
      const number = c.req.param('revision') ?? ''
      const [present, project] = await Promise.all([
        store.get(id),
        /^[1-9]\d*$/.test(number) ? store.revision(id, Number(number)) : null,
      ])
      if (!present || !project) return show(c, NO_PLAN, 404)
      return showProject(c, project, present)
    })

  page.get('/plans/:id/extend', async (c) => {
    const present = await store.get(c.req.param('id'))
    const build = present && (await store.builds(present.id))?.at(-1)
    const built = build && (await store.revision(present.id, build.revision))
    if (!built) return show(c, NO_PLAN, 404)
    workers.refuseLarge(built.plan)
    const { id, name, notes } = present
    const saveFields = { name, notes, lengthsIn: unitsOf(built.plan, c.req.query('show')) }
    const saved: Saved = { id, revision: present.revision, opened: null, builds: [build] }
    return showPlan(c, { ...BLANK, form: formOfPlan(extensionOf(built.plan)), saveFields, saved, extended: build })
  })

  mountPreview(page, deps)
  mountSidePages(page, deps)
  mountBuyingPages(page, deps)
  mountFinishedPages(page, deps)
  mountCopies(page, deps)
  mountSignIn(page, deps.guard)

  for (const path of ['/', `/sheets/:sheet{${ANY_SHEET}}`]) page.post(path, (c) => edited(c, null))
  for (const path of ['/plans/:id', `/plans/:id/:sheet{${ANY_SHEET}}`])
    page.post(path, (c) => edited(c, c.req.param('id') ?? ''))

  /** Handles the posted form: changes a table, calculates the plan and shows one of its sheets, or saves it. */
  async function edited(c: Context, id: string | null): Promise<Response> {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    if (rowsPosted(fields) > MOST_ROWS) return show(c, TOO_LARGE, 413)
    const saveFields: SaveFields = {
      name: plainText(fields.get('name')).trim(),
      notes: plainText(fields.get('notes')).replaceAll('\r\n', '\n'),
      lengthsIn: readLengthsIn(fields.get('show')),
    }
    const saved: Saved | null =
      id === null
        ? null
        : { id, revision: Number(fields.get('revision')), opened: null, builds: (await store.builds(id)) ?? [] }
    const button = fields.get('do') ?? 'work'
    const typedForm = asMeant(formOfFields(fields), planShape, readLengthsIn(fields.get(SHOWN_IN)))
    const posted = withRemedy(withPasted(typedForm, fields), button)
    const change = readRowChange(button)
    const metalPrices = metalPricesIn(fields)
    const figures = { typed: figuresTyped(fields, readLengthsIn(fields.get(SHOWN_IN))), tried: null }
    const typed = { ...BLANK, saveFields, saved, metalPrices, figures, railAt: fields.get(RAIL_AT) ?? null }
    if (change) return showPlan(c, { ...typed, form: withRowChange(posted, change), touched: change.path })

    const table = readRowsImport(button)
    if (table !== null) {
      const imported = await withRowsImported(posted, table, await fileIn(c, `tracks.${table}.${ROWS_FILE}`))
      if (imported.ok) return showPlan(c, { ...typed, form: imported.form })
      return showPlan(c, { ...typed, form: posted, faults: imported.faults }, 422)
    }

    const form = withoutBlankRows(posted)
    const plan = inUnitsOf(planOfForm(form), saveFields.lengthsIn)
    const result = workOut(workers, plan, await stockOf(saved))
    const faults = [
      ...(result.ok ? [] : result.faults),
      ...(button.startsWith('save') ? saveFaults(saveFields, form) : []),
    ]
    const worked = result.ok ? result.worked : null
    const shown: PlanPage = {
      ...typed,
      ...{ form, faults, worked },
      sheet: button === 'compare' ? 'record' : sheetAsked(c),
      editorOpen: button !== 'compare' && readRemedy(button) === null && sheetAsked(c) === 'line',
    }
    if (faults.length > 0 || !worked) return showPlan(c, shown, 422)
    const figure = readFigureButton(button)
    if (figure) return showPlan(c, ...withFigure(figure, shown, plan, worked, await stockOf(saved)))
    if (button === 'compare') {
      const compared = compare(plan, metalsOf(plan, worked, metalPrices))
      return showPlan(c, { ...shown, compared }, compared.faults.length > 0 ? 422 : 200)
    }
    if (!button.startsWith('save')) return showPlan(c, shown)
    return save(c, button, shown, plan)
  }

  /** The plan with the figure of the button shown beside it, or put in. */
  function withFigure(
    button: FigureButton,
    shown: PlanPage,
    plan: StoredPlan,
    worked: WorkedPlan,
    stock: Stock,
  ): [PlanPage, ShownStatus] {
    const { typed } = shown.figures!
    const { tried, plan: withIt } = tryFigure(button, typed, plan, worked, workers)
    const page = { ...shown, editorOpen: true }
    if (!withIt) return [{ ...page, figures: { typed, tried } }, tried.faults.length > 0 ? 422 : 200]
    const result = workOut(workers, withIt, stock)
    const put = { ...page, form: formOfPlan(withIt) }
    return result.ok ? [{ ...put, worked: result.worked }, 200] : [{ ...put, worked: null, faults: result.faults }, 422]
  }

  function compare(plan: StoredPlan, metals: readonly MetalToCompare[]) {
    const read = readComparison(comparisonAsked(plan, metals))
    const result = read.ok ? workers.compareMaterials(read.asked) : read
    return result.ok ? { comparison: result.comparison, faults: [] } : { comparison: null, faults: result.faults }
  }

  async function save(c: Context, button: string, shown: PlanPage, plan: StoredPlan): Promise<Response> {
    const { saveFields, saved, form } = shown
    const content = { name: nameOf(saveFields, form), notes: saveFields.notes, plan }
    const seeOther = (project: Project) => c.redirect(planAddress(project.id, saveFields), 303)
    if (!saved || button === 'save-new') return seeOther(await store.create(content))
    const over = /^save over (\d+)$/.exec(button)
    const written = await store.replace(saved.id, content, [over ? Number(over[1]) : saved.revision])
    if (written.outcome === 'done') return seeOther(written.value)
    return showPlan(c, { ...shown, conflict: await conflictWith(saved.id, plan) }, 409)
  }

  async function conflictWith(id: string, plan: StoredPlan): Promise<Conflict> {
    const present = await store.get(id)
    if (!present) return { kind: 'deleted' }
    const { revision, name, updatedAt } = present
    return { kind: 'saved', revision, name, updatedAt, differences: planDifferences(present.plan, plan) }
  }

  /** One revision of a saved plan; the next save is based on the latest revision. */
  async function showProject(c: Context, project: Project, present: Project): Promise<Response> {
    const { id, revision, updatedAt, name, notes, plan } = project
    const saveFields = { name, notes, lengthsIn: unitsOf(plan, c.req.query('show')) }
    const builds = (await store.builds(id)) ?? []
    const saved = { id, revision: present.revision, opened: { revision, updatedAt }, builds }
    const base = revision === present.revision ? `/plans/${id}` : `/plans/${id}/revisions/${revision}`
    const finished = sheetAsked(c) === 'bench' && { finished: await store.finishedCards(id, revision) }
    return showPlan(c, { ...(await workedPage(c, plan, saveFields, saved, base)), ...finished })
  }

  /** What the shed has for a plan: what is reserved for it, or, before it is saved, what is free. */
  async function stockOf(saved: Saved | null): Promise<Stock> {
    return saved ? store.reserved(saved.id, saved.revision) : store.freeStock()
  }

  /** A saved or demo plan with its results. A plan that this version cannot calculate is shown with its faults. */
  async function workedPage(
    c: Context,
    plan: StoredPlan,
    saveFields: SaveFields,
    saved: Saved | null,
    sheetBase: string,
  ): Promise<PlanPage> {
    const result = workOut(workers, plan, await stockOf(saved))
    const railAt = c.req.query(RAIL_AT) ?? null
    const shown = { ...BLANK, form: formOfPlan(plan), saveFields, saved, sheet: sheetAsked(c), sheetBase, railAt }
    return result.ok ? { ...shown, worked: result.worked } : { ...shown, faults: result.faults }
  }

  return page
}

/** The page for an unknown address; requests from programs are answered elsewhere. */
export function pageNotFound(): Response {
  return new Response(documentOf(NO_PAGE.title, NO_PAGE.main), {
    status: 404,
    headers: {
      'Content-Type': 'text/html; charset=UTF-8',
      'Content-Security-Policy': POLICY,
      'X-Content-Type-Options': 'nosniff',
    },
  })
}

/** The sheet in the address; the line in an address without one. */
function sheetAsked(c: Context): SheetName {
  const sheet = c.req.param('sheet')
  return isSheet(sheet) ? sheet : 'line'
}

/** The page for a browser whose request is refused. */
export function pageRefused(c: Context, kind: AccessRefusal['kind']): Response {
  c.header('Content-Security-Policy', POLICY)
  switch (kind) {
    case 'key-required':
      return askToSignIn(c)
    case 'foreign-request':
      return show(c, FOREIGN, 403)
    case 'unknown-host':
      return show(c, UNKNOWN_HOST, 421)
    case 'too-many-wrong-keys':
      return show(c, TOO_MANY_KEYS, 429)
  }
}

function showPlan(c: Context, page: PlanPage, status: ShownStatus = 200): Response {
  return show(c, { title: nameOf(page.saveFields, page.form) || 'New plan', main: planPage(page) }, status)
}

const BLANK = {
  faults: [],
  worked: null,
  saved: null,
  sheet: 'line',
  sheetBase: null,
  railAt: null,
  editorOpen: false,
  metalPrices: new Map<string, string>(),
} as const

function nameOf(saveFields: SaveFields, form: FormPart): string {
  return saveFields.name || (form.cells.title ?? '').trim()
}

function saveFaults(saveFields: SaveFields, form: FormPart): Fault[] {
  const faults: Fault[] = []
  const name = nameOf(saveFields, form)
  if (name === '')
    faults.push({
      path: ['name'],
      code: 'missing',
      detail: 'the plan needs a name before it can be saved',
      hint: 'fill in “Plan name” or the title',
    })
  if (name.length > NAME_LONGEST)
    faults.push({ path: ['name'], code: 'too-long', detail: `the name is longer than ${NAME_LONGEST} characters` })
  if (saveFields.notes.length > NOTES_LONGEST)
    faults.push({ path: ['notes'], code: 'too-long', detail: `the notes are longer than ${NOTES_LONGEST} characters` })
  return faults
}

function planAddress(id: string, { lengthsIn }: SaveFields): string {
  return lengthsIn === 'both' ? `/plans/${id}` : `/plans/${id}?show=${lengthsIn}`
}
