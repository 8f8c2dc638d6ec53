import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { BEND_CHECK_ANSWER } from '../../bending/bend-check/types.ts'
import { readBendCheck } from '../../estimate/questions/read-bend-check.ts'
import { asWritten } from '../../estimate/read-plan.ts'
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
  summary: 'Is it right? Readings of a bent rail or a laid curve',
  description:
    'Reading n is the ordinate in the middle of a chord centred on station n. With a radius: a bench check, where to bend more and where to ease. Without: string lining against the ordinates proposed, or against the program’s own proposal, which keeps the ends’ place and direction with the smallest largest throw. How sure that is: for the stations between which runs and bodies begin and end it is the least there is, and no run moved, lengthened or shortened by a station lessens it; least of all it is not proven to be, with two bodies or more above all. Where the bounded work of a check ends the search before, the finding search-ended says so.',
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('BendCheck', 'The readings.', EXAMPLE_CHECKS) },
  responses: {
    200: json(answerSchema(BEND_CHECK_ANSWER), 'Each station with its verdict.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy'),
  },
})

export function mountBendChecks(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('BendCheck', schemaOf(BEND_CHECK))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readBendCheck(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = await workers.checkBend(read.input, c.req.raw)
    if (!result.ok) return problem(c, unacceptable(asWritten(result.faults, body.value)))
    return c.json(result.check, 200)
  })
}
