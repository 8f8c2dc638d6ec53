import type { Context, Hono } from 'hono'
import type { AccessGuard } from '../../access/guard.ts'
import { ownAddress } from '../../access/own-address.ts'
import { linkedAddresses } from '../../paper/linked-tables.ts'
import type { Backups } from '../../projects/backups/backups.ts'
import { buildProject, previewBuilding } from '../../projects/building.ts'
import { isProjectId } from '../../projects/ids.ts'
import { makeLink } from '../../projects/links.ts'
import type { Project, ProjectStore } from '../../projects/store.ts'
import { lengthTextsIn } from '../../shed/length-texts.ts'
import { readStock } from '../../shed/read-stock.ts'
import type { Workers } from '../../workers/workers.ts'
import { html } from '../html.ts'
import { formOfStock, readShedForm } from '../shed/shed-form.ts'
import { type ShedPage, shedPage } from '../shed/shed-page.ts'
import { readLengthsIn } from '../show-length.ts'
import { fieldsOf, plainText, type ShownStatus, show } from './answering.ts'
import { builtPage } from './built-page.ts'
import { type LinksPage, linksPage } from './links-page.ts'
import { NO_FORM, NO_PLAN } from './plain-pages.ts'
import { deletedPlansPage, deletePage } from './saved-pages.ts'
import { unitsOf } from './units-of-plan.ts'

export interface PageDeps {
  readonly store: ProjectStore
  readonly workers: Workers
  readonly guard: AccessGuard
  /** None by default. */
  readonly backups?: Backups | null
}

const LABEL_LONGEST = 100
const DELETED_LISTED = 50

/** The pages for deleting, links and building of saved plans, and for the shed. */
export function mountSidePages(page: Hono, { store, workers }: PageDeps): void {
  page.get('/shed', async (c) => {
    const { stock, lengthTexts, revision } = await store.shed()
    const form = formOfStock(stock, lengthTexts)
    const lengthsIn = readLengthsIn(c.req.query('show'))
    return showShed(c, { form, revision, lengthsIn, saved: c.req.query('saved') !== undefined })
  })

  page.post('/shed', async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const revision = Number(fields.get('revision'))
    const lengthsIn = readLengthsIn(fields.get('show'))
    const posted = readShedForm(fields)
    if ('changed' in posted) return showShed(c, { form: posted.changed, revision, lengthsIn })
    const { form } = posted
    const read = readStock(posted.stock)
    if (!read.ok) return showShed(c, { form, revision, lengthsIn, faults: read.faults }, 422)
    const written = await store.restock(read.stock, [revision], undefined, lengthTextsIn(posted.stock))
    if (written.outcome === 'done')
      return c.redirect(lengthsIn === 'both' ? '/shed?saved' : `/shed?saved&show=${lengthsIn}`, 303)
    return showShed(c, { form, revision: written.revision, lengthsIn, stale: true }, 409)
  })

  page.get('/plans/:id/delete', async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return show(c, NO_PLAN, 404)
    const { id, name, revision } = project
    return show(c, { title: `Delete ${name}`, main: deletePage(id, name, revision) })
  })

  page.post('/plans/:id/delete', async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const id = c.req.param('id')
    const removed = await store.remove(id, [Number(fields.get('revision'))])
    if (removed.outcome === 'done') return c.redirect('/deleted', 303)
    const present = await store.get(id)
    if (!present) return show(c, NO_PLAN, 404)
    const main = html`<p class="card notice" role="alert">Someone else saved revision ${present.revision} of this plan in the meantime.</p>${deletePage(id, present.name, present.revision)}`
    return show(c, { title: `Delete ${present.name}`, main }, 409)
  })

  page.get('/deleted', async (c) => {
    const after = c.req.query('after')
    const plans = await store.list({
      limit: DELETED_LISTED,
      after: after && isProjectId(after) ? after : null,
      deleted: true,
    })
    return show(c, { title: 'Deleted plans', main: deletedPlansPage(plans) })
  })

  page.post('/plans/:id/restore', async (c) => {
    const project = await store.restore(c.req.param('id'))
    return project ? c.redirect(`/plans/${project.id}`, 303) : show(c, NO_PLAN, 404)
  })

  page.get('/plans/:id/links', async (c) => {
    const project = await store.get(c.req.param('id'))
    return project ? showLinks(c, project, {}) : show(c, NO_PLAN, 404)
  })

  page.post('/plans/:id/links', async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const project = await store.get(c.req.param('id'))
    if (!project) return show(c, NO_PLAN, 404)
    if (fields.get('do') === 'revoke') {
      await store.removeLink(project.id, fields.get('link') ?? '')
      return c.redirect(`/plans/${project.id}/links`, 303)
    }
    const label = plainText(fields.get('label')).trim()
    const fault =
      label === ''
        ? 'Enter the purpose of the link.'
        : label.length > LABEL_LONGEST
          ? `Use at most ${LABEL_LONGEST} characters.`
          : null
    if (fault !== null) return showLinks(c, project, { label, fault }, 422)
    const link = await makeLink(store, project.id, label)
    if (link.outcome === 'missing') return show(c, NO_PLAN, 404)
    if (link.outcome === 'too-many')
      return showLinks(
        c,
        project,
        { label, fault: 'This plan already has the maximum number of links. Revoke one first.' },
        422,
      )
    const { tables, workbook, sheets } = linkedAddresses(link.token)
    const shown = [...tables.filter((path) => path.endsWith('.csv')), workbook]
    const units = project.plan.units === 'imperial' ? '?units=in' : ''
    const addresses = [...shown.map((path) => `${path}${units}`), sheets].map((path) => `${ownAddress(c) ?? ''}${path}`)
    return showLinks(c, project, { made: { label, addresses } })
  })

  page.get('/plans/:id/built', async (c) => {
    const project = await store.get(c.req.param('id'))
    return project ? showBuilt(c, project, false) : show(c, NO_PLAN, 404)
  })

  page.post('/plans/:id/built', async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const id = c.req.param('id')
    const result = await buildProject(store, workers, id, [Number(fields.get('revision'))], c.req.raw)
    if (result.outcome === 'done') return c.redirect('/shed', 303)
    const present = await store.get(id)
    return present ? showBuilt(c, present, result.outcome === 'stale', 409) : show(c, NO_PLAN, 404)
  })

  async function showLinks(
    c: Context,
    project: Project,
    about: Partial<Pick<LinksPage, 'made' | 'fault' | 'label'>>,
    status: ShownStatus = 200,
  ): Promise<Response> {
    const links = (await store.links(project.id)) ?? []
    const main = linksPage({ project, links, made: null, fault: null, label: '', ...about })
    const answer = show(c, { title: 'Links for spreadsheets', main }, status)
    if (!about.made) return answer
    // The page has a secret in it: it must not be cached, or sent to other pages as a referrer.
    answer.headers.set('Cache-Control', 'no-store')
    answer.headers.set('Referrer-Policy', 'no-referrer')
    return answer
  }

  async function showBuilt(c: Context, project: Project, stale: boolean, status: ShownStatus = 200): Promise<Response> {
    const lengthsIn = unitsOf(project.plan, c.req.query('show'))
    const [builds, foreseen] = await Promise.all([
      store.builds(project.id),
      previewBuilding(store, workers, project, c.req.raw),
    ])
    return show(
      c,
      { title: `Mark ${project.name} as built`, main: builtPage(project, builds ?? [], foreseen, stale, lengthsIn) },
      status,
    )
  }

  async function showShed(
    c: Context,
    shed: Pick<ShedPage, 'form' | 'revision' | 'lengthsIn'> & Partial<ShedPage>,
    status: ShownStatus = 200,
  ): Promise<Response> {
    const reservations = await store.reservations()
    const main = shedPage({ faults: [], stale: false, saved: false, ...shed, reservations })
    return show(c, { title: 'Stock in the shed', main }, status)
  }
}
