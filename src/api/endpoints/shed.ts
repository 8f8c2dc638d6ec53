import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { STOCK } from '../../plan/rows/shed.ts'
import type { ProjectStore } from '../../projects/store.ts'
import { lengthTextsIn } from '../../shed/length-texts.ts'
import { readStock } from '../../shed/read-stock.ts'
import { answerSchema } from '../answers/schema.ts'
import { RESERVATIONS, SHED, shedAnswer } from '../answers/shed.ts'
import { ETAG, IF_MATCH, IF_NONE_MATCH } from '../parameters.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { entityTagOf, namesRevision } from '../request/entity-tag.ts'
import { readJsonBody } from '../request/json-body.ts'
import { readPrecondition, staleRevision } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const tags = ['Shed']
const middleware = answersIn('application/json')

const EXAMPLE = {
  sticks: [
    { section: '250', material: 'brass', length: '5 ft', count: 4 },
    { section: '250', material: 'brass', length: '1 ft 7-1/2 in', count: 1 },
  ],
  panels: [
    { section: '250', material: 'brass', diameter: '20 ft', angle: 30, ties: 24, count: 2 },
    { section: '250', material: 'brass', length: '2 ft', ties: 13, count: 1 },
  ],
  joiners: [{ section: '250', material: 'brass', count: 6 }],
  insulatedJoiners: [{ section: '250', material: 'brass', count: 2 }],
  ties: 40,
  fasteners: 150,
}

const read = createRoute({
  method: 'get',
  path: '/v1/shed',
  operationId: 'readShed',
  tags,
  summary: 'Read the stock in the shed',
  description: 'One stock for all projects, including what is reserved. It is empty at first.',
  middleware,
  parameters: [IF_NONE_MATCH],
  request: { query: query({}) },
  responses: {
    200: { ...json(answerSchema(SHED), 'The shed.'), headers: ETAG },
    304: { description: 'If-None-Match names the current revision.', headers: ETAG },
    ...problems('bad-parameter', 'not-acceptable', 'unavailable'),
  },
})

const replace = createRoute({
  method: 'put',
  path: '/v1/shed',
  operationId: 'replaceShed',
  tags,
  summary: 'Replace the stock in the shed',
  description:
    'Use it after counting, or after buying something. It replaces the whole stock and reserves it again for the projects that are still to be built: the oldest gets what its estimate takes, the next one takes from what is left, and so on.',
  middleware,
  parameters: [IF_MATCH],
  request: {
    query: query({}),
    body: jsonBody('StockWritten', 'The whole stock.', {
      'a-few-sticks': { summary: 'Sticks, an offcut, ready-made track and small parts', value: EXAMPLE },
    }),
  },
  responses: {
    200: { ...json(answerSchema(SHED), 'The shed at its new revision.'), headers: ETAG },
    ...problems(...REFUSALS_OF_A_BODY, 'stale-revision', 'if-match-required', 'unavailable'),
  },
})

const reservations = createRoute({
  method: 'get',
  path: '/v1/shed/reservations',
  operationId: 'listReservations',
  tags,
  summary: 'List what is reserved in the shed',
  description:
    'What is reserved for each project that is still to be built, the oldest first; projects without reservations are left out. Nothing is reserved twice. Where a plan states its own `onHand`, nothing of that kind is reserved for it. Ready-made track is reserved only for a plan that lists some or gives `readyMade`.',
  middleware,
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(RESERVATIONS), 'The reservations.'),
    ...problems('bad-parameter', 'not-acceptable', 'unavailable'),
  },
})

export function mountShed(api: OpenAPIHono, store: ProjectStore): void {
  api.openAPIRegistry.register('StockWritten', schemaOf(STOCK))

  api.openapi(read, async (c) => {
    const shed = await store.shed()
    c.header('ETag', entityTagOf(shed.revision))
    if (namesRevision(c.req.header('if-none-match'), shed.revision)) return c.body(null, 304)
    return c.json(shedAnswer(shed), 200)
  })

  api.openapi(replace, async (c) => {
    const precondition = readPrecondition(c, 'replace what lies in the shed')
    if (!precondition.ok) return problem(c, precondition.refusal)
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const written = readStock(body.value)
    if (!written.ok) return problem(c, unacceptable(written.faults))
    const result = await store.restock(written.stock, precondition.expected, undefined, lengthTextsIn(body.value))
    if (result.outcome === 'stale') return problem(c, staleRevision(c, result.revision, 'shed'))
    c.header('ETag', entityTagOf(result.value.revision))
    return c.json(shedAnswer(result.value), 200)
  })

  api.openapi(reservations, async (c) => {
    const items = await store.reservations()
    return c.json({ items: meant(items) }, 200)
  })
}
