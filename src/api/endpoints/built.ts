import { isDeepStrictEqual } from 'node:util'
import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { leftOver } from '../../estimate/shed/after-building.ts'
import type { Build, Built, ProjectStore } from '../../projects/store.ts'
import type { Asker, Search } from '../../search/search.ts'
import { IF_MATCH, PROJECT_ID } from '../parameters.ts'
import { problem, type Refusal } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { MISSING_PROJECT, readOptionalPrecondition, staleRevision } from '../request/precondition.ts'
import { json, problems } from '../responses.ts'
import { query } from '../schemas/query.ts'
import type { Mutable } from '../schemas/same-type.ts'
import { BuildSchema, BuildsSchema } from '../schemas/shed.ts'
import { type CannotWorkOut, workOutProject } from '../worked-project.ts'

const tags = ['Projects', 'Shed']
const middleware = answersIn('application/json')

const build = createRoute({
  method: 'post',
  path: '/v1/projects/{id}/built',
  operationId: 'markBuilt',
  tags,
  summary: 'The present revision of a project has been built',
  description:
    'As its estimate says: what it takes from the shed leaves it, what it has to buy is taken as bought. Into the shed go offcuts no shorter than `minimumPiece`, and what is over of the packs. Each revision is built once; an extension is a new revision. No body; with If-Match only that revision is built.',
  middleware,
  parameters: [PROJECT_ID, { ...IF_MATCH, required: false }],
  request: { query: query({}) },
  responses: {
    200: json(BuildSchema, 'What it did to the shed.'),
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
  summary: 'Which revisions of a project have been built',
  description: 'The oldest first, each with what it took from the shed and what came back.',
  middleware,
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: {
    200: json(BuildsSchema, 'The revisions that were built.'),
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unavailable'),
  },
})

export function mountBuilt(api: OpenAPIHono, store: ProjectStore, search: Search): void {
  api.openapi(build, async (c) => {
    const precondition = readOptionalPrecondition(c)
    if (!precondition.ok) return problem(c, precondition.refusal)
    const result = await built(store, search, c.req.param('id'), precondition.expected, c.req.raw)
    switch (result.outcome) {
      case 'missing':
        return problem(c, MISSING_PROJECT)
      case 'stale':
        return problem(c, staleRevision(c, result.revision))
      case 'refused':
        return problem(c, result.reason)
      case 'built-before':
        return problem(c, builtBefore(result.build))
      case 'done':
        return c.json(result.value as Mutable<Build>, 200)
    }
  })

  api.openapi(list, async (c) => {
    const items = (await store.builds(c.req.param('id'))) as Mutable<Build>[] | null
    return items ? c.json({ items }, 200) : problem(c, MISSING_PROJECT)
  })
}

/** Tries to build a project whose plan or stock is changed all the while are given up after so many. */
const MOST_TRIES = 5

/**
 * Builds a project as its estimate is now. The estimate is made before stock is moved, since it may take long; where plan
 * or stock have changed in between it is made again.
 */
async function built(
  store: ProjectStore,
  search: Search,
  id: string,
  expected: Parameters<ProjectStore['build']>[1],
  asker: Asker,
): Promise<Built<CannotWorkOut>> {
  for (let tries = 1; ; tries++) {
    const project = await store.get(id)
    if (!project) return { outcome: 'missing' }
    const reserved = await store.reserved(id, project.revision)
    const worked = await workOutProject(search, project, reserved, asker)
    let changed = false
    const result = await store.build<CannotWorkOut | null>(id, expected, (present, stock) => {
      changed = present.revision !== project.revision || !isDeepStrictEqual(stock, reserved)
      if (changed) return { ok: false, reason: null }
      if (!worked.ok) return { ok: false, reason: worked.refusal }
      return { ok: true, taken: worked.taken, returned: leftOver(worked.plan, worked.estimate) }
    })
    if (result.outcome !== 'refused') return result
    if (result.reason) return { outcome: 'refused', reason: result.reason }
    if (tries === MOST_TRIES)
      throw new Error('the project or its stock changed again and again while it was worked out')
  }
}

function builtBefore({ revision, builtAt }: Build): Refusal<'already-built'> {
  return {
    kind: 'already-built',
    detail: `Revision ${revision} was built on ${builtAt.slice(0, 10)}.`,
    faults: [
      {
        path: [],
        code: 'already-built',
        detail: `revision ${revision} has taken its stock from the shed and brought back what was left over`,
        hint: 'save what is to be built next as a new revision, with what is already laid marked as existing',
      },
    ],
  }
}
