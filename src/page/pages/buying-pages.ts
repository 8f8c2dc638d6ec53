import type { Context, Hono } from 'hono'
import { billOfProjectSince } from '../../projects/bill-since.ts'
import type { Project } from '../../projects/store.ts'
import { workOutProject } from '../../projects/working-out.ts'
import { changedPurchases, withPurchases } from '../shopping/purchases.ts'
import { builtShoppingPage, shoppingPage } from '../shopping/shopping-page.ts'
import { sincePage } from '../shopping/since-page.ts'
import { show } from './answering.ts'
import { NO_FORM, NO_PLAN } from './plain-pages.ts'
import { planDifferences } from './plan-differences.ts'
import type { PageDeps } from './side-pages.ts'
import { inUnitsOf, unitsOf } from './units-of-plan.ts'

/** The pages for buying what a saved plan needs: its list with boxes to tick, and what more to buy after a change. */
export function mountBuyingPages(page: Hono, { store, workers }: PageDeps): void {
  page.get('/plans/:id/shopping', async (c) => {
    const project = await store.get(c.req.param('id'))
    return project ? showShopping(c, project, c.req.query('saved') !== undefined) : show(c, NO_PLAN, 404)
  })

  page.post('/plans/:id/shopping', async (c) => {
    if (!/^application\/x-www-form-urlencoded\b/i.test(c.req.header('content-type') ?? '')) return show(c, NO_FORM, 415)
    const ticked = new Set(new URLSearchParams(await c.req.text()).getAll('item'))
    const project = await store.get(c.req.param('id'))
    if (!project) return show(c, NO_PLAN, 404)
    const list = await shoppingOf(project)
    if (!list.ok || (await isBuilt(project))) return showShopping(c, project, false)
    await store.notePurchases(project.id, changedPurchases(list.lines, ticked))
    return c.redirect(`/plans/${project.id}/shopping?saved`, 303)
  })

  page.get('/plans/:id/since', async (c) => {
    const project = await store.get(c.req.param('id'))
    const revisions = project && (await store.revisions(project.id))
    if (!project || !revisions) return show(c, NO_PLAN, 404)
    const earlier = revisions.filter(({ revision }) => revision < project.revision)
    const since = Number(c.req.query('since') ?? earlier.at(-1)?.revision)
    const before = await store.revision(project.id, since)
    if (!before || since >= project.revision) return show(c, NO_PLAN, 404)
    const lengthsIn = unitsOf(project.plan, c.req.query('show'))
    const result = await billOfProjectSince(store, workers, { ...project, plan: inUnitsOf(project.plan, lengthsIn) }, [
      since,
    ])
    if (!result.ok && result.missing) return show(c, NO_PLAN, 404)
    const differences = planDifferences(before.plan, project.plan)
    const main = sincePage({ project, earlier, since, result, differences, lengthsIn })
    return show(c, { title: `What more to buy for ${project.name}`, main })
  })

  async function shoppingOf(project: Project) {
    const reserved = await store.reserved(project.id, project.revision)
    const worked = await workOutProject(workers, project, reserved)
    if (!worked.ok) return worked
    const { bill } = worked.estimate
    return { ok: true, currency: bill.currency, ...withPurchases(bill, await store.purchases(project.id)) } as const
  }

  async function isBuilt({ id, revision }: Project): Promise<boolean> {
    return ((await store.builds(id)) ?? []).some((build) => build.revision === revision)
  }

  async function showShopping(c: Context, project: Project, saved: boolean) {
    const title = `Shopping for ${project.name}`
    if (await isBuilt(project)) return show(c, { title, main: builtShoppingPage(project) })
    const list = await shoppingOf(project)
    if (!list.ok) return c.redirect(`/plans/${project.id}`, 303)
    return show(c, {
      title,
      main: shoppingPage({ project, saved, lengthsIn: unitsOf(project.plan, c.req.query('show')), ...list }),
    })
  }
}
