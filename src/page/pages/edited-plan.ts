import type { Context, Hono } from 'hono'
import { readComparison } from '../../estimate/questions/read-comparison.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import type { Project, StoredPlan } from '../../projects/store.ts'
import type { Stock } from '../../shed/stock.ts'
import { type FigureButton, figuresTyped, readFigureButton } from '../figures/figure-fields.ts'
import { tryFigure } from '../figures/try-figure.ts'
import { SHOWN_IN } from '../form/bare-numbers.ts'
import { CURVES } from '../form/curve-sizes.ts'
import { movedAsTyped, readMoveButton } from '../form/move-track.ts'
import { formOfPlan, planOfForm, rowsPosted } from '../form/plan-form.ts'
import { readRowChange, withoutBlankRows, withRowChange } from '../form/rows.ts'
import { ROWS_FILE, readRowsImport, withPasted, withRowsImported } from '../form/rows-from-table.ts'
import { comparisonAsked, type MetalToCompare, metalPricesIn, metalsOf } from '../metals/metals-to-compare.ts'
import { RAIL_AT } from '../sheets/garden/gap-question.ts'
import { TURNOUTS_AT_ENDS } from '../sheets/line/fitted.ts'
import { readRemedy, withRemedy } from '../sheets/line/remedy.ts'
import { ANY_SHEET } from '../sheets/sheet-names.ts'
import { readLengthsIn } from '../show-length.ts'
import { fileIn, plainText, type ShownStatus, show } from './answering.ts'
import type { Conflict } from './conflict.ts'
import { NO_FORM, TOO_LARGE } from './plain-pages.ts'
import { planDifferences } from './plan-differences.ts'
import type { PlanPage, SaveFields } from './plan-page.ts'
import { saveFaults } from './save-faults.ts'
import { BLANK, nameOf, postedFor, sheetAsked, showPlan, stockOf } from './shown-plan.ts'
import type { PageDeps } from './side-pages.ts'
import { inUnitsOf } from './units-of-plan.ts'
import { type WorkedPlan, withTurnoutWays, workOut } from './worked-plan.ts'

/** Of all tables together; a plan with more is refused, and a page with them would be of no use. */
const MOST_ROWS = LIMITS.elements + LIMITS.gradePoints + LIMITS.groundPoints + LIMITS.breaks + 1_000

/** What is done with the posted form of a plan. */
export function mountEditing(page: Hono, { store, workers }: PageDeps): void {
  /** The sheets of a plan that is not saved are answers to its form and cannot be opened by themselves. */
  page.get(`/sheets/:sheet{${ANY_SHEET}}`, (c) => c.redirect('/#plan', 303))

  for (const path of ['/', `/sheets/:sheet{${ANY_SHEET}}`]) page.post(path, (c) => edited(c, null))
  for (const path of ['/plans/:id', `/plans/:id/:sheet{${ANY_SHEET}}`])
    page.post(path, (c) => edited(c, c.req.param('id') ?? ''))

  /** Handles the posted form: changes a table, calculates the plan and shows one of its sheets, or saves it. */
  async function edited(c: Context, id: string | null): Promise<Response> {
    const read = await postedFor(c, store, id)
    if (!read) return show(c, NO_FORM, 415)
    const { fields, saveFields, saved } = read
    if (rowsPosted(fields) > MOST_ROWS) return show(c, TOO_LARGE, 413)
    const button = fields.get('do') ?? 'work'
    const posted = withRemedy(withPasted(read.form, fields), button)
    const change = readRowChange(button)
    const metalPrices = metalPricesIn(fields)
    const figures = { typed: figuresTyped(fields, readLengthsIn(fields.get(SHOWN_IN))), tried: null }
    const curves = plainText(fields.get(CURVES))
    const typed = { ...BLANK, curves, saveFields, saved, metalPrices, figures, railAt: fields.get(RAIL_AT) ?? null }
    if (change) return showPlan(c, { ...typed, form: withRowChange(posted, change), touched: change.path })

    const table = readRowsImport(button)
    if (table !== null) {
      const imported = await withRowsImported(posted, table, await fileIn(c, `tracks.${table}.${ROWS_FILE}`))
      if (imported.ok) return showPlan(c, { ...typed, form: imported.form })
      return showPlan(c, { ...typed, form: posted, faults: imported.faults }, 422)
    }

    const form = withoutBlankRows(posted)
    const plan = inUnitsOf(planOfForm(form), saveFields.lengthsIn)
    const result = workOut(workers, plan, await stockOf(store, saved))
    const faults = [
      ...(result.ok ? [] : result.faults),
      ...(button.startsWith('save') ? saveFaults(saveFields, form) : []),
    ]
    const worked = result.ok ? result.worked : null
    const shown: PlanPage = {
      ...typed,
      ...{ form, faults, worked },
      sheet: button === 'compare' ? 'record' : sheetAsked(c),
      editorOpen:
        faults.length > 0 || (button !== 'compare' && readRemedy(button) === null && sheetAsked(c) === 'line'),
    }
    if (faults.length > 0 || !worked) return showPlan(c, shown, 422)
    const figure = readFigureButton(button)
    if (figure) return showPlan(c, ...withFigure(figure, shown, plan, worked, await stockOf(store, saved)))
    if (button === 'compare') {
      const compared = compare(plan, metalsOf(plan, worked, metalPrices))
      return showPlan(c, { ...shown, compared }, compared.faults.length > 0 ? 422 : 200)
    }
    const moving = readMoveButton(button)
    if (moving !== null && moving < worked.plan.tracks.length)
      return showPlan(c, ...withMove(moving, fields, shown, plan, await stockOf(store, saved)))
    if (button === TURNOUTS_AT_ENDS)
      return showPlan(c, { ...shown, worked: withTurnoutWays(workers, plan, worked), editorOpen: false })
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
    return instead(page, withIt, stock)
  }

  /** The plan with a track moved as was typed beside it. */
  function withMove(
    track: number,
    fields: ReadonlyMap<string, string>,
    shown: PlanPage,
    plan: StoredPlan,
    stock: Stock,
  ): [PlanPage, ShownStatus] {
    const page = { ...shown, editorOpen: true }
    const moved = movedAsTyped(track, fields, plan, workers)
    if (!moved.ok) return [{ ...page, faults: moved.faults }, 422]
    return instead(page, moved.plan, stock)
  }

  /** Another plan on the same page. */
  function instead(page: PlanPage, plan: StoredPlan, stock: Stock): [PlanPage, ShownStatus] {
    const result = workOut(workers, plan, stock)
    const put = { ...page, form: formOfPlan(plan) }
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
}

function planAddress(id: string, { lengthsIn }: SaveFields): string {
  return lengthsIn === 'both' ? `/plans/${id}` : `/plans/${id}?show=${lengthsIn}`
}
