import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { BEND_CHECK_ANSWER } from '../../bending/bend-check/types.ts'
import { readBendCheck } from '../../estimate/questions/read-bend-check.ts'
import { asWritten } from '../../estimate/read-plan.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { BEND_CHECK } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_CHECKS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/bend-checks',
  operationId: 'checkBend',
  tags: ['Bends'],
  summary: 'Check a bent rail or a laid curve by its ordinates',
  description:
    'Reading n is the ordinate at the middle of a chord centred on station n. With a radius this is a bench check: it says where to bend more and where to ease. Without one it is string lining against the ordinates you propose, or against a proposal of the service, which keeps the position and direction of both ends and makes the largest throw as small as it can. That throw is the smallest possible for the stations at which the runs and bodies of the proposal begin and end, and no run can be moved, lengthened or shortened by one station to reduce it. It is not proven to be the smallest of all, least of all with two bodies or more. If the search is cut short by the limit on its work, the finding search-ended says so.',
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('BendCheck', 'The readings.', EXAMPLE_CHECKS) },
  responses: {
    200: json(answerSchema(BEND_CHECK_ANSWER), 'The verdict for each station.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountBendChecks(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('BendCheck', schemaOf(BEND_CHECK))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readBendCheck(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = workers.checkBend(read.input)
    if (!result.ok) return problem(c, unacceptable(asWritten(result.faults, body.value)))
    return c.json(meant(result.check), 200)
  })
}
