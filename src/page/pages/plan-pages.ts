import type { Context, Hono } from 'hono'
import type { Project, StoredPlan } from '../../projects/store.ts'
import { extensionOf } from '../../shed/extension-of.ts'
import { formOfPlan } from '../form/plan-form.ts'
import { RAIL_AT } from '../sheets/garden/gap-question.ts'
import { EDIT } from '../sheets/sheet-links.ts'
import { ANY_SHEET } from '../sheets/sheet-names.ts'
import { readLengthsIn } from '../show-length.ts'
import { show } from './answering.ts'
import { DEMO_PLAN } from './demo-plan.ts'
import { NO_PLAN } from './plain-pages.ts'
import type { PlanPage, Saved, SaveFields } from './plan-page.ts'
import { BLANK, sheetAsked, showPlan, stockOf } from './shown-plan.ts'
import type { PageDeps } from './side-pages.ts'
import { inUnitsOf, unitsOf } from './units-of-plan.ts'
import { workOut } from './worked-plan.ts'

/** The sheets of the demo plan and of saved plans, and the next revision of one that is built. */
export function mountPlanPages(page: Hono, { store, workers }: PageDeps): void {
  for (const path of ['/demo', `/demo/:sheet{${ANY_SHEET}}`])
    page.get(path, async (c) => {
      const saveFields = { name: '', notes: '', lengthsIn: readLengthsIn(c.req.query('show')) }
      return showPlan(c, await workedPage(c, DEMO_PLAN, saveFields, null, '/demo'))
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

  /** A saved or demo plan with its results. A plan that this version cannot calculate is shown with its faults. */
  async function workedPage(
    c: Context,
    plan: StoredPlan,
    saveFields: SaveFields,
    saved: Saved | null,
    sheetBase: string,
  ): Promise<PlanPage> {
    const result = workOut(workers, inUnitsOf(plan, saveFields.lengthsIn), await stockOf(store, saved))
    const railAt = c.req.query(RAIL_AT) ?? null
    const ownUnits = unitsOf(plan)
    const shown = {
      ...BLANK,
      form: formOfPlan(plan),
      saveFields,
      saved,
      sheet: sheetAsked(c),
      sheetBase,
      ownUnits,
      railAt,
      editorOpen: c.req.query(EDIT) !== undefined && sheetAsked(c) === 'line',
    }
    return result.ok ? { ...shown, worked: result.worked } : { ...shown, faults: result.faults }
  }
}
