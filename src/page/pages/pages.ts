import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { compress } from 'hono/compress'
import { csrf } from 'hono/csrf'
import { HTTPException } from 'hono/http-exception'
import { readComparison } from '../../estimate/questions/read-comparison.ts'
import type { Fault } from '../../measure/fault.ts'
import { isProjectId } from '../../projects/ids.ts'
import type { Project, StoredPlan } from '../../projects/store.ts'
import { StoreError } from '../../projects/store-error.ts'
import { NOTHING, type Stock } from '../../shed/stock.ts'
import { WorkersError } from '../../workers/workers-error.ts'
import { checkPage } from '../check/check-page.ts'
import { checkFieldsOf } from '../check/read-check.ts'
import { type FormPart, formOfFields, formOfPlan, planOfForm } from '../form/plan-form.ts'
import { blankForm, readRowChange, withoutBlankRows, withRowChange } from '../form/rows.ts'
import { ROWS_FILE, readRowsImport, withPasted, withRowsImported } from '../form/rows-from-table.ts'
import { html } from '../html.ts'
import { type AskedMetal, comparisonAsked, metalPricesIn, metalsOf } from '../metals/asked-metals.ts'
import { readLengthsIn } from '../show-length.ts'
import { STYLESHEET, STYLESHEET_PATH } from '../stylesheet.ts'
import { fieldsOf, fileIn, plainText, type ShownStatus, show } from './answering.ts'
import type { Conflict } from './conflict.ts'
import { DEMO_PLAN } from './demo-plan.ts'
import { documentOf } from './frame.ts'
import { welcome } from './home-page.ts'
import { BROKEN, BUSY, FOREIGN_FORM, NO_FORM, NO_PAGE, NO_PLAN, NO_STORE, TOO_LARGE } from './plain-pages.ts'
import { planDifferences } from './plan-differences.ts'
import { type Keeping, type PlanPage, planPage, type Saved } from './plan-page.ts'
import { mountSidePages, type PageDeps } from './side-pages.ts'
import { workOut } from './worked-plan.ts'

/** Nothing but the page's own style sheet and drawings; forms go nowhere else; no frames, no scripts. */
const POLICY =
  "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

/** A plan of the greatest size the service takes is about half of this as a form. */
const LARGEST_FORM_BYTES = 8 * 1024 * 1024

const PLANS_LISTED = 20
const NAME_LONGEST = 200
const NOTES_LONGEST = 10_000

/** The web page: everything a person does with plans, without script. Mounted at the root. */
export function createPage(deps: PageDeps): Hono {
  const { store, workers } = deps
  const page = new Hono()

  page.get(STYLESHEET_PATH, (c) =>
    c.body(STYLESHEET, 200, {
      'Content-Type': 'text/css; charset=utf-8',
      'Cache-Control': 'public, max-age=31536000, immutable',
    }),
  )

  const ways = ['/', '/demo', '/check', '/shed', '/plans/*']
  for (const way of ways) {
    page.use(way, compress())
    page.use(way, async (c, next) => {
      await next()
      c.header('Content-Security-Policy', POLICY)
      c.header('X-Content-Type-Options', 'nosniff')
      if (c.res.headers.get('cache-control') === 'no-store') return
      c.header('Referrer-Policy', 'same-origin')
      c.header('Cache-Control', 'private, no-cache')
    })
    page.use(way, csrf())
    page.use(way, bodyLimit({ maxSize: LARGEST_FORM_BYTES, onError: (c) => show(c, TOO_LARGE, 413) }))
  }

  page.onError((error, c) => {
    if (error instanceof HTTPException && error.status === 403) return show(c, FOREIGN_FORM, 403)
    if (error instanceof WorkersError) {
      c.header('Retry-After', '10')
      return show(c, BUSY, 503)
    }
    console.error(`the page ${c.req.method} ${c.req.path} failed:`, error)
    if (!(error instanceof StoreError && error.kind === 'unavailable')) return show(c, BROKEN, 500)
    c.header('Retry-After', '5')
    return show(c, NO_STORE, 503)
  })

  page.get('/', async (c) => {
    const after = c.req.query('after')
    const plans = await store.list({ limit: PLANS_LISTED, after: after && isProjectId(after) ? after : null })
    const keeping = { name: '', notes: '', lengthsIn: readLengthsIn(c.req.query('show')) }
    return show(c, {
      title: 'Rails, bends, cuts and costs',
      main: html`${welcome(plans)}${planPage({ ...BLANK, form: blankForm(), keeping, beneath: true })}`,
    })
  })

  page.get('/demo', async (c) => {
    const keeping = { name: '', notes: '', lengthsIn: readLengthsIn(c.req.query('show')) }
    return showPlan(c, await workedPage(c, DEMO_PLAN, keeping, null))
  })

  page.get('/check', async (c) => {
    const fields = checkFieldsOf((name) => c.req.query(name))
    const { main, complete } = await checkPage(fields, readLengthsIn(c.req.query('show')), (input) =>
      workers.checkBend(input, c.req.raw),
    )
    return show(c, { title: 'Check a bend or a laid curve', main }, complete ? 200 : 422)
  })

  page.get('/plans/:id', async (c) => {
    const project = await store.get(c.req.param('id'))
    return project ? showProject(c, project, project) : show(c, NO_PLAN, 404)
  })

  page.get('/plans/:id/revisions/:revision', async (c) => {
    const number = c.req.param('revision')
    const [present, project] = await Promise.all([
      store.get(c.req.param('id')),
      /^[1-9]\d*$/.test(number) ? store.revision(c.req.param('id'), Number(number)) : null,
    ])
    if (!present || !project) return show(c, NO_PLAN, 404)
    return showProject(c, project, present)
  })

  mountSidePages(page, deps)

  page.post('/', (c) => edited(c, null))
  page.post('/plans/:id', (c) => edited(c, c.req.param('id')))

  /** The form came back: change a table, work it out, or save. */
  async function edited(c: Context, id: string | null): Promise<Response> {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const keeping: Keeping = {
      name: plainText(fields.get('name')).trim(),
      notes: plainText(fields.get('notes')).replaceAll('\r\n', '\n'),
      lengthsIn: readLengthsIn(fields.get('show')),
    }
    const saved: Saved | null = id === null ? null : { id, revision: Number(fields.get('revision')), opened: null }
    const wish = fields.get('do') ?? 'work'
    const posted = withPasted(formOfFields(fields), fields)
    const change = readRowChange(wish)
    const metalPrices = metalPricesIn(fields)
    if (change) return showPlan(c, { ...BLANK, form: withRowChange(posted, change), keeping, saved, metalPrices })

    const table = readRowsImport(wish)
    if (table !== null) {
      const taken = await withRowsImported(posted, table, await fileIn(c, `tracks.${table}.${ROWS_FILE}`))
      if (taken.ok) return showPlan(c, { ...BLANK, form: taken.form, keeping, saved, metalPrices })
      return showPlan(c, { ...BLANK, form: posted, keeping, saved, metalPrices, faults: taken.faults }, 422)
    }

    const form = withoutBlankRows(posted)
    const plan = planOfForm(form)
    const result = await workOut(workers, plan, await stockOf(saved), c.req.raw)
    const faults = [
      ...(result.ok ? [] : result.faults),
      ...(wish.startsWith('save') ? keepingFaults(keeping, form) : []),
    ]
    const worked = result.ok ? result.worked : null
    const shown: PlanPage = { form, keeping, saved, faults, worked, editorOpen: wish !== 'compare', metalPrices }
    if (faults.length > 0 || !worked) return showPlan(c, shown, 422)
    if (wish === 'compare') {
      const compared = await compare(c, plan, metalsOf(plan, worked, metalPrices))
      return showPlan(c, { ...shown, compared }, compared.faults.length > 0 ? 422 : 200)
    }
    if (!wish.startsWith('save')) return showPlan(c, shown)
    return keep(c, wish, shown, plan)
  }

  async function compare(c: Context, plan: StoredPlan, metals: readonly AskedMetal[]) {
    const read = readComparison(comparisonAsked(plan, metals))
    const result = read.ok ? await workers.compareMaterials(read.asked, c.req.raw) : read
    return result.ok ? { comparison: result.comparison, faults: [] } : { comparison: null, faults: result.faults }
  }

  async function keep(c: Context, wish: string, shown: PlanPage, plan: StoredPlan): Promise<Response> {
    const { keeping, saved, form } = shown
    const content = { name: nameOf(keeping, form), notes: keeping.notes, plan }
    const seeOther = (project: Project) => c.redirect(planAddress(project.id, keeping), 303)
    if (!saved || wish === 'save-new') return seeOther(await store.create(content))
    const over = /^save over (\d+)$/.exec(wish)
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

  /** A saved plan as it stood at one of its revisions; whatever is saved from here follows the present one. */
  async function showProject(c: Context, project: Project, present: Project): Promise<Response> {
    const { id, revision, updatedAt, name, notes, plan } = project
    const keeping = { name, notes, lengthsIn: readLengthsIn(c.req.query('show')) }
    const saved = { id, revision: present.revision, opened: { revision, updatedAt } }
    return showPlan(c, await workedPage(c, plan, keeping, saved))
  }

  /** What the shed has for a saved plan. */
  async function stockOf(saved: Saved | null): Promise<Stock> {
    return saved ? store.reserved(saved.id, saved.revision) : NOTHING
  }

  /** A plan as it was written, worked out. One that this version cannot work out is shown with what is wrong. */
  async function workedPage(c: Context, plan: StoredPlan, keeping: Keeping, saved: Saved | null): Promise<PlanPage> {
    const result = await workOut(workers, plan, await stockOf(saved), c.req.raw)
    const shown = { ...BLANK, form: formOfPlan(plan), keeping, saved }
    return result.ok ? { ...shown, worked: result.worked } : { ...shown, faults: result.faults }
  }

  return page
}

/** The answer for an address where there is nothing, for people; programs are answered elsewhere. */
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

function showPlan(c: Context, page: PlanPage, status: ShownStatus = 200): Response {
  return show(c, { title: nameOf(page.keeping, page.form) || 'A new plan', main: planPage(page) }, status)
}

const BLANK = {
  faults: [],
  worked: null,
  saved: null,
  editorOpen: false,
  metalPrices: new Map<string, string>(),
} as const

function nameOf(keeping: Keeping, form: FormPart): string {
  return keeping.name || (form.cells.title ?? '').trim()
}

function keepingFaults(keeping: Keeping, form: FormPart): Fault[] {
  const faults: Fault[] = []
  const name = nameOf(keeping, form)
  if (name === '')
    faults.push({
      path: ['name'],
      code: 'missing',
      detail: 'the plan has no name to be saved under',
      hint: 'fill in “Saved as” or the title',
    })
  if (name.length > NAME_LONGEST)
    faults.push({ path: ['name'], code: 'too-long', detail: `the name is longer than ${NAME_LONGEST} characters` })
  if (keeping.notes.length > NOTES_LONGEST)
    faults.push({ path: ['notes'], code: 'too-long', detail: `the notes are longer than ${NOTES_LONGEST} characters` })
  return faults
}

function planAddress(id: string, { lengthsIn }: Keeping): string {
  return lengthsIn === 'both' ? `/plans/${id}` : `/plans/${id}?show=${lengthsIn}`
}
