import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { NOTHING } from '../../estimate/shed/stock.ts'
import type { Search } from '../../search/search.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'
import { EstimateSchema } from '../schemas/estimate.ts'
import { EXAMPLE_PLANS } from '../schemas/example-plans.ts'
import { PlanSchema } from '../schemas/plan.ts'
import { query } from '../schemas/query.ts'
import { asWritten, readPlan } from '../schemas/read-plan.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/estimates',
  operationId: 'estimatePlan',
  tags: ['Estimates'],
  summary: 'Work out a plan',
  description:
    'A plan goes in; rail lengths, ties, joints, bend ordinates, the cut plan, findings and the priced bill come out. The answer is a pure function of the plan: the same plan gives the same bytes. A plan with findings is still answered with 200.',
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('Plan', 'The plan.', EXAMPLE_PLANS) },
  responses: {
    200: json(EstimateSchema, 'The estimate.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy'),
  },
})

export function mountEstimates(api: OpenAPIHono, search: Search): void {
  api.openAPIRegistry.register('Plan', PlanSchema)

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readPlan(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = await search.estimate({ plan: read.plan, stock: NOTHING }, c.req.raw)
    if (!result.ok) return problem(c, unacceptable(asWritten(result.faults, body.value)))
    return c.json(result.estimate, 200)
  })
}
