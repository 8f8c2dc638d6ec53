import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { schemaOf } from '../../plan/reading/schema.ts'
import { readProject } from '../../projects/read-project.ts'
import { PROJECT_CONTENT } from '../../projects/rows.ts'
import { PROJECT, type ProjectStore } from '../../projects/store.ts'
import { PROJECT_PAGE } from '../answers/projects.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_PROJECTS } from '../example-plans.ts'
import { ETAG, IDEMPOTENCY_KEY, IF_MATCH, IF_NONE_MATCH, LOCATION, PROJECT_ID } from '../parameters.ts'
import { badParameters, problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { cursorAfter, readCursor } from '../request/cursor.ts'
import { entityTagOf, namesRevision } from '../request/entity-tag.ts'
import { hashOf, notCreatedAgain, readIdempotencyKey } from '../request/idempotency-key.ts'
import { readJsonBody } from '../request/json-body.ts'
import { MISSING_PROJECT, readPrecondition, staleRevision } from '../request/precondition.ts'
import { choiceParameter, countParameter, query, textParameter } from '../request/query.ts'
import { json, jsonBody, problems } from '../responses.ts'

const tags = ['Projects']
const middleware = answersIn('application/json')
const PAGE = { usual: 50, most: 200 }

const create = createRoute({
  method: 'post',
  path: '/v1/projects',
  operationId: 'createProject',
  tags,
  summary: 'Save a plan as a new project',
  description:
    'The plan must have no faults. It is stored as you send it, in its own units. With an Idempotency-Key it is safe to send the request again when no answer came.',
  middleware,
  parameters: [IDEMPOTENCY_KEY],
  request: { query: query({}), body: jsonBody('ProjectContent', 'Name, notes and plan.', EXAMPLE_PROJECTS) },
  responses: {
    201: { ...json(answerSchema(PROJECT), 'The new project, at revision 1.'), headers: { ...ETAG, ...LOCATION } },
    ...problems(
      'malformed-body',
      'bad-parameter',
      'not-found',
      'not-acceptable',
      'in-progress',
      'body-too-large',
      'unsupported-body',
      'unacceptable-content',
      'unavailable',
    ),
  },
})

const list = createRoute({
  method: 'get',
  path: '/v1/projects',
  operationId: 'listProjects',
  tags,
  summary: 'List projects, the newest first',
  description:
    'Without their plans, one page at a time. `next` is the cursor of the next page. With `deleted=1`, those that were deleted and can be restored.',
  middleware,
  request: {
    query: query({
      limit: countParameter('Limit', { least: 1, most: PAGE.most })
        .optional()
        .openapi({ param: { description: `Projects per page; ${PAGE.usual} when left out.` } }),
      cursor: textParameter('Cursor', 200)
        .optional()
        .openapi({ param: { description: 'The `next` of the previous page. The first page when left out.' } }),
      deleted: choiceParameter('YesOrNo', ['0', '1'], '1 for yes')
        .optional()
        .openapi({ param: { description: '1 lists those that were deleted, and no others.' } }),
    }),
  },
  responses: {
    200: json(answerSchema(PROJECT_PAGE), 'A page of projects.'),
    ...problems('bad-parameter', 'not-acceptable', 'unavailable'),
  },
})

const read = createRoute({
  method: 'get',
  path: '/v1/projects/{id}',
  operationId: 'readProject',
  tags,
  summary: 'Read a project',
  description: 'The current revision, with its plan.',
  middleware,
  parameters: [PROJECT_ID, IF_NONE_MATCH],
  request: { query: query({}) },
  responses: {
    200: { ...json(answerSchema(PROJECT), 'The project.'), headers: ETAG },
    304: { description: 'If-None-Match names the current revision.', headers: ETAG },
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

const replace = createRoute({
  method: 'put',
  path: '/v1/projects/{id}',
  operationId: 'replaceProject',
  tags,
  summary: 'Replace a project',
  description: 'Saves a new revision; earlier ones can still be read. Notes become empty when left out.',
  middleware,
  parameters: [PROJECT_ID, IF_MATCH],
  request: { query: query({}), body: jsonBody('ProjectContent', 'Name, notes and plan.', EXAMPLE_PROJECTS) },
  responses: {
    200: { ...json(answerSchema(PROJECT), 'The project at its new revision.'), headers: ETAG },
    ...problems(
      'malformed-body',
      'bad-parameter',
      'not-found',
      'not-acceptable',
      'stale-revision',
      'body-too-large',
      'unsupported-body',
      'unacceptable-content',
      'if-match-required',
      'unavailable',
    ),
  },
})

const remove = createRoute({
  method: 'delete',
  path: '/v1/projects/{id}',
  operationId: 'deleteProject',
  tags,
  summary: 'Delete a project',
  description:
    'Deletes the project with all its revisions. It can be restored for 30 days; then it is removed permanently. Its stock is free at once, and its links stop working.',
  parameters: [PROJECT_ID, IF_MATCH],
  request: { query: query({}) },
  responses: {
    204: { description: 'The project is deleted.' },
    ...problems('bad-parameter', 'not-found', 'stale-revision', 'if-match-required', 'unavailable'),
  },
})

export function mountProjects(api: OpenAPIHono, store: ProjectStore): void {
  api.openAPIRegistry.register('ProjectContent', schemaOf(PROJECT_CONTENT))

  api.openapi(create, async (c) => {
    const key = readIdempotencyKey(c)
    if (!key.ok) return problem(c, key.refusal)
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const written = readProject(body.value)
    if (!written.ok) return problem(c, unacceptable(written.faults))
    const created =
      key.value === null
        ? ({ outcome: 'done', value: await store.create(written.content) } as const)
        : await store.createOnce(key.value, hashOf(body.value), written.content)
    if (created.outcome !== 'done') return problem(c, notCreatedAgain(c, created.outcome))
    const project = created.value
    c.header('Location', `/v1/projects/${project.id}`)
    c.header('ETag', entityTagOf(project.revision))
    return c.json(project, 201)
  })

  api.openapi(list, async (c) => {
    const { limit = PAGE.usual, cursor, deleted } = c.req.valid('query')
    const after = cursor === undefined ? null : readCursor(cursor)
    if (cursor !== undefined && after === null) return problem(c, badParameters([BAD_CURSOR]))
    const { items, next } = await store.list({ limit, after, deleted: deleted === '1' })
    return c.json({ items, next: next === null ? null : cursorAfter(next) }, 200)
  })

  api.openapi(read, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    c.header('ETag', entityTagOf(project.revision))
    if (namesRevision(c.req.header('if-none-match'), project.revision)) return c.body(null, 304)
    return c.json(project, 200)
  })

  api.openapi(replace, async (c) => {
    const precondition = readPrecondition(c)
    if (!precondition.ok) return problem(c, precondition.refusal)
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const written = readProject(body.value)
    if (!written.ok) return problem(c, unacceptable(written.faults))
    const result = await store.replace(c.req.param('id'), written.content, precondition.expected)
    if (result.outcome === 'missing') return problem(c, MISSING_PROJECT)
    if (result.outcome === 'stale') return problem(c, staleRevision(c, result.revision))
    c.header('ETag', entityTagOf(result.value.revision))
    return c.json(result.value, 200)
  })

  api.openapi(remove, async (c) => {
    const precondition = readPrecondition(c)
    if (!precondition.ok) return problem(c, precondition.refusal)
    const result = await store.remove(c.req.param('id'), precondition.expected)
    if (result.outcome === 'missing') return problem(c, MISSING_PROJECT)
    if (result.outcome === 'stale') return problem(c, staleRevision(c, result.revision))
    return c.body(null, 204)
  })
}

const BAD_CURSOR = {
  parameter: 'cursor',
  code: 'bad-cursor',
  detail: 'this cursor is not from this service',
  hint: 'use `next` of the previous page, or leave it out to begin with the newest',
} as const
