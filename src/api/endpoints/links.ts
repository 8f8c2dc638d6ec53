import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { linkedAddresses } from '../../paper/linked-tables.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { makeLink } from '../../projects/links.ts'
import { LINK_WANTED } from '../../projects/rows.ts'
import { MOST_LINKS, type ProjectStore } from '../../projects/store.ts'
import { LINKS, NEW_LINK } from '../answers/projects.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_LINKS } from '../example-plans.ts'
import { LINK_ID, PROJECT_ID } from '../parameters.ts'
import { problem, type Refusal, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { MISSING_PROJECT } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const tags = ['Links']
const middleware = answersIn('application/json')

const make = createRoute({
  method: 'post',
  path: '/v1/projects/{id}/links',
  operationId: 'makeLink',
  tags,
  summary: 'Create a link to the tables of a project',
  description: `Anyone who has the link can read the tables of this project and its printed sheets, and nothing else, until it is revoked. Its token is shown only once. At most ${MOST_LINKS} links per project.`,
  middleware,
  parameters: [PROJECT_ID],
  request: { query: query({}), body: jsonBody('LinkWanted', 'What the link is for.', EXAMPLE_LINKS) },
  responses: {
    201: json(answerSchema(NEW_LINK), 'The new link with its token.'),
    ...problems(...REFUSALS_OF_A_BODY, 'not-found', 'unavailable'),
  },
})

const list = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/links',
  operationId: 'listLinks',
  tags,
  summary: 'List the links of a project, the oldest first',
  description: 'With their labels and when they were last used. Tokens are not stored and cannot be shown again.',
  middleware,
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(LINKS), 'The links of the project.'),
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

const revoke = createRoute({
  method: 'delete',
  path: '/v1/projects/{id}/links/{link}',
  operationId: 'revokeLink',
  tags,
  summary: 'Revoke a link',
  description: 'The link stops working at once.',
  parameters: [PROJECT_ID, LINK_ID],
  request: { query: query({}) },
  responses: {
    204: { description: 'The link is revoked.' },
    ...problems('bad-parameter', 'not-found', 'unavailable'),
  },
})

export function mountLinks(api: OpenAPIHono, store: ProjectStore): void {
  api.openAPIRegistry.register('LinkWanted', schemaOf(LINK_WANTED))

  api.openapi(make, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = schemaOf(LINK_WANTED).safeParse(body.value)
    if (!read.success) return problem(c, unacceptable(faultsOf(read.error.issues, body.value)))
    const made = await makeLink(store, c.req.param('id'), read.data.label)
    if (made.outcome === 'missing') return problem(c, MISSING_PROJECT)
    if (made.outcome === 'too-many') return problem(c, TOO_MANY)
    const { link, token } = made
    c.header('Cache-Control', 'no-store')
    return c.json({ ...link, token, ...linkedAddresses(token) }, 201)
  })

  api.openapi(list, async (c) => {
    const items = await store.links(c.req.param('id'))
    return items ? c.json({ items }, 200) : problem(c, MISSING_PROJECT)
  })

  api.openapi(revoke, async (c) => {
    const removed = await store.removeLink(c.req.param('id'), c.req.param('link'))
    return removed ? c.body(null, 204) : problem(c, MISSING_LINK)
  })
}

const TOO_MANY: Refusal<'unacceptable-content'> = {
  kind: 'unacceptable-content',
  detail: 'This project already has the largest number of links allowed.',
  faults: [
    {
      path: [],
      code: 'too-many',
      detail: `it has ${MOST_LINKS} links, the most allowed`,
      hint: 'revoke one that is no longer used',
    },
  ],
}

const MISSING_LINK: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: 'This project has no such link, or it was revoked.',
}
