import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { FIT_OPTIONS } from '../../estimate/questions/fit-options.ts'
import { readFits } from '../../estimate/questions/read-fits.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { FITS } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_FITS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/fits',
  operationId: 'fitPlan',
  tags: ['Estimates'],
  summary: 'Lengths, angles and paths that fit',
  description: `Works out what a plan leaves open: lengths and angles that are "fit", and connections, each with the ways in which it can be made. Each option is put through the estimate and comes with its length, its cost, the findings of the plan with it, and a JSON Patch that writes it into the plan. An estimate of the same plan uses, for each connection, the shortest way whose track has no finding above a note by itself. With keepClear only ways are answered on which the cars touch nothing, a margin beside them included; where there is none, the refusal says how near the nearest comes. With turnouts, those on hand are put in where a connection leaves or comes to a straight of another track. At most ${LIMITS.fittedTracks} tracks may leave something open.`,
  middleware: answersIn('application/json'),
  request: {
    query: query({}),
    body: jsonBody('FitsRequest', 'The plan.', EXAMPLE_FITS),
  },
  responses: {
    200: json(answerSchema(FIT_OPTIONS), 'The options, the shortest first.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountFits(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('FitsRequest', schemaOf(FITS))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readFits(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const found = workers.fitOptions(read.asked)
    if (!found.ok) return problem(c, unacceptable(found.faults))
    return c.json(meant(found.answer), 200)
  })
}
