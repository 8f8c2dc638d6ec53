import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { COMPARISON_ANSWER } from '../../estimate/questions/compare.ts'
import { readComparison } from '../../estimate/questions/read-comparison.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { COMPARISON } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_COMPARISONS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/comparisons',
  operationId: 'compareMaterials',
  tags: ['Estimates'],
  summary: 'Compare a plan in several materials',
  description: `Works out the plan in each of the materials: cost, mass, how to bend its sharpest curve, thermal expansion, voltage drop at the far end, and findings. At most ${LIMITS.comparedMaterials} materials; for all of them together, elements and sticks may not exceed the limits of one plan.`,
  middleware: answersIn('application/json'),
  request: {
    query: query({}),
    body: jsonBody('ComparisonRequest', 'The plan and the materials.', EXAMPLE_COMPARISONS),
  },
  responses: {
    200: json(answerSchema(COMPARISON_ANSWER), 'The materials, in the order of the request.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountComparisons(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('ComparisonRequest', schemaOf(COMPARISON))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readComparison(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = workers.compareMaterials(read.asked)
    return result.ok ? c.json(meant(result.comparison), 200) : problem(c, unacceptable(result.faults))
  })
}
