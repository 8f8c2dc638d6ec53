import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { readCutPlan } from '../../estimate/questions/read-cut-plan.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { CUT_PLAN } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { CUT_PLAN_ANSWER, cutPlanAnswer } from '../answers/cut-plan.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_CUT_PLANS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/cut-plans',
  operationId: 'planCuts',
  tags: ['Cut plans'],
  summary: 'Cut runs of rail from sticks at the least cost',
  description:
    'Send the runs, the sticks to cut them from and their prices; the answer says which piece to cut from which stick. The plan has the least cost (what is on hand costs nothing), then the fewest joints, then the longest shortest piece. The answer also has a lower bound: no plan costs less. The same request gives the same bytes; "thorough" searches longer for a better plan.',
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('CutPlanRequest', 'The runs and the sticks.', EXAMPLE_CUT_PLANS) },
  responses: {
    200: json(answerSchema(CUT_PLAN_ANSWER), 'The cut plan.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountCutPlans(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('CutPlanRequest', schemaOf(CUT_PLAN))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readCutPlan(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = workers.planCutList(read.problem)
    if (!result.ok) throw new Error(`no cut plan, short of ${result.missingMm} mm, although every length can be bought`)
    return c.json(meant(cutPlanAnswer(result.plan, read.currency, read.assumptions)), 200)
  })
}
