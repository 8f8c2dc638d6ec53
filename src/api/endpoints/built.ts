import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { meant } from '../../measure/meant.ts'
import { buildProject } from '../../projects/building.ts'
import { BUILD, type Build, type ProjectStore } from '../../projects/store.ts'
import type { Workers } from '../../workers/workers.ts'
import { BUILDS } from '../answers/projects.ts'
import { answerSchema } from '../answers/schema.ts'
import { IF_MATCH, PROJECT_ID } from '../parameters.ts'
import { problem, type Refusal, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { MISSING_PROJECT, readOptionalPrecondition, staleRevision } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { json, problems } from '../responses.ts'

const tags = ['Projects', 'Shed']
const middleware = answersIn('application/json')

const build = createRoute({
  method: 'post',
  path: '/v1/projects/{id}/built',
  operationId: 'markBuilt',
  tags,
  summary: 'Mark the current revision of a project as built',
  description:
    'Updates the shed as the estimate says. What the project takes from the shed is removed, and what it has to buy counts as bought. Offcuts of sticks and of ready-made track that are no shorter than `minimumPiece`, and what is left of the packs, are added. Each revision can be built once; an extension is a new revision. Send no body. With If-Match only that revision is marked.',
  middleware,
  parameters: [PROJECT_ID, { ...IF_MATCH, required: false }],
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(BUILD), 'What building changed in the shed.'),
    ...problems(
      'bad-parameter',
      'not-found',
      'not-acceptable',
      'already-built',
      'stale-revision',
      'unacceptable-content',
      'unavailable',
    ),
  },
})

const list = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/built',
  operationId: 'listBuilds',
  tags,
  summary: 'List the revisions of a project that were built',
  description: 'The oldest first, each with what it took from the shed and what it returned.',
  middleware,
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(BUILDS), 'The revisions that were built.'),
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

export function mountBuilt(api: OpenAPIHono, store: ProjectStore, workers: Workers): void {
  api.openapi(build, async (c) => {
    const precondition = readOptionalPrecondition(c)
    if (!precondition.ok) return problem(c, precondition.refusal)
    const result = await buildProject(store, workers, c.req.param('id'), precondition.expected, c.req.raw)
    switch (result.outcome) {
      case 'missing':
        return problem(c, MISSING_PROJECT)
      case 'stale':
        return problem(c, staleRevision(c, result.revision))
      case 'refused':
        return problem(c, unacceptable(result.reason))
      case 'built-before':
        return problem(c, alreadyBuilt(result.build))
      case 'done':
        return c.json(meant(result.value), 200)
    }
  })

  api.openapi(list, async (c) => {
    const items = await store.builds(c.req.param('id'))
    return items ? c.json({ items: meant(items) }, 200) : problem(c, MISSING_PROJECT)
  })
}

function alreadyBuilt({ revision, builtAt }: Build): Refusal<'already-built'> {
  return {
    kind: 'already-built',
    detail: `Revision ${revision} was built on ${builtAt.slice(0, 10)}.`,
    faults: [
      {
        path: [],
        code: 'already-built',
        detail: `revision ${revision} has already taken its stock from the shed and returned what was left over`,
        hint: 'save what you build next as a new revision, and mark track that is already laid as existing',
      },
    ],
  }
}
