import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { PROJECT, type ProjectStore } from '../../projects/store.ts'
import { REVISIONS } from '../answers/projects.ts'
import { answerSchema } from '../answers/schema.ts'
import { PROJECT_ID, REVISION_NUMBER } from '../parameters.ts'
import { problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { MISSING_PROJECT, MISSING_REVISION } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { json, problems } from '../responses.ts'

const tags = ['Projects']
const middleware = answersIn('application/json')

const list = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/revisions',
  operationId: 'listRevisions',
  tags,
  summary: 'List the revisions of a project, the oldest first',
  description: 'Every revision, including the current one.',
  middleware,
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(REVISIONS), 'The revisions of the project.'),
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

const read = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/revisions/{revision}',
  operationId: 'readRevision',
  tags,
  summary: 'Read a revision of a project',
  description: 'A revision never changes.',
  middleware,
  parameters: [PROJECT_ID, REVISION_NUMBER],
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(PROJECT), 'The project at that revision.'),
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

export function mountRevisions(api: OpenAPIHono, store: ProjectStore): void {
  api.openapi(list, async (c) => {
    const items = await store.revisions(c.req.param('id'))
    return items ? c.json({ items }, 200) : problem(c, MISSING_PROJECT)
  })

  api.openapi(read, async (c) => {
    const revision = c.req.param('revision')
    const project = /^[1-9]\d{0,9}$/.test(revision) ? await store.revision(c.req.param('id'), Number(revision)) : null
    return project ? c.json(project, 200) : problem(c, MISSING_REVISION)
  })
}
