import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { PROJECT, type ProjectStore } from '../../projects/store.ts'
import { answerSchema } from '../answers/schema.ts'
import { ETAG, PROJECT_ID } from '../parameters.ts'
import { problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { entityTagOf } from '../request/entity-tag.ts'
import { MISSING_PROJECT } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { json, problems } from '../responses.ts'

const restore = createRoute({
  method: 'post',
  path: '/v1/projects/{id}/restore',
  operationId: 'restoreProject',
  tags: ['Projects'],
  summary: 'Restore a deleted project',
  description:
    'Within 30 days of its deletion: the project is as it was, with its revisions, builds and links. Stock is reserved for it again, as far as there is any. A project that is not deleted stays as it is.',
  middleware: answersIn('application/json'),
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: {
    200: { ...json(answerSchema(PROJECT), 'The project.'), headers: ETAG },
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

export function mountRestored(api: OpenAPIHono, store: ProjectStore): void {
  api.openapi(restore, async (c) => {
    const project = await store.restore(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    c.header('ETag', entityTagOf(project.revision))
    return c.json(project, 200)
  })
}
