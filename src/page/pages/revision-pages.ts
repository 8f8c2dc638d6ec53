import type { Context, Hono } from 'hono'
import type { Project, RevisionSummary } from '../../projects/store.ts'
import { type Html, html } from '../html.ts'
import { comparePage, type Side } from '../revisions/compare-page.ts'
import { show } from './answering.ts'
import { NO_PLAN } from './plain-pages.ts'
import { revisionsPage } from './saved-pages.ts'
import type { PageDeps } from './side-pages.ts'
import { inUnitsOf, unitsOf } from './units-of-plan.ts'
import { workOut } from './worked-plan.ts'

/** The list of a plan's revisions, and two of them side by side. */
export function mountRevisionPages(page: Hono, { store, workers }: PageDeps): void {
  page.get('/plans/:id/revisions', async (c) => {
    const id = c.req.param('id')
    const revisions = await store.revisions(id)
    const name = revisions?.at(-1)?.name
    if (!revisions || name === undefined) return show(c, NO_PLAN, 404)
    return show(c, { title: `Revisions of ${name}`, main: revisionsPage(id, name, revisions) })
  })

  page.get('/plans/:id/compare', async (c) => {
    const id = c.req.param('id')
    const revisions = await store.revisions(id)
    const latest = revisions?.at(-1)
    if (!revisions || !latest) return show(c, NO_PLAN, 404)
    const from = revisionAsked(c, 'from', revisions) ?? revisions.at(-2)?.revision ?? latest.revision
    const to = revisionAsked(c, 'to', revisions) ?? latest.revision
    const [before, after] = await Promise.all([store.revision(id, from), store.revision(id, to)])
    const title = `Two revisions of ${latest.name}`
    if (!before || !after) return show(c, { title, main: missing(c, id, latest) }, 404)
    const lengthsIn = unitsOf(after.plan, c.req.query('show'))
    const side = async (project: Project): Promise<Side> => {
      const result = workOut(workers, inUnitsOf(project.plan, lengthsIn), await store.reserved(id, project.revision))
      return { project, worked: result.ok ? { ok: true, ...result.worked } : result }
    }
    const sides = { before: await side(before), after: await side(after) }
    return show(c, { title, main: comparePage({ ...sides, revisions, lengthsIn }) })
  })
}

/** The revision that the address names; null where it names none, 0 where there is no such one. */
function revisionAsked(c: Context, name: string, revisions: readonly RevisionSummary[]): number | null {
  const text = c.req.query(name)
  if (text === undefined || text === '') return null
  return revisions.find(({ revision }) => String(revision) === text)?.revision ?? 0
}

function missing(c: Context, id: string, { name, revision }: RevisionSummary): Html {
  const asked = [c.req.query('from'), c.req.query('to')].filter((text) => text !== undefined).join(' or ')
  return html`<h1>No such revision of ${name}</h1>
<section class="card"><p>There is no revision ${asked} to compare: they are numbered from 1 to ${revision}.</p>
<p class="buttons"><a class="button first" href="/plans/${id}/compare">Compare the last two</a> <a class="button" href="/plans/${id}/revisions">All revisions</a></p></section>`
}
