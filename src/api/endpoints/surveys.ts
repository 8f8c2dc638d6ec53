import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { readSurvey } from '../../estimate/questions/read-survey.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { SURVEY } from '../../plan/rows/survey.ts'
import { SURVEY_ANSWER } from '../../survey/answer.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_SURVEYS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/surveys',
  operationId: 'workOutSurvey',
  tags: ['Setting out'],
  summary: 'Positions and elevations from distances by tape and readings of a level',
  description: `Every name that is not a peg is a point to be found. A point needs two distances from places that are known or found; a third one checks them. Where there are more readings than needed, all of them count at once (least squares, each with the error stated for it), and the answer says how far each reading is off, which are suspect, and how exact each point is. A point that cannot be placed, or has no elevation, is answered with null and the reason; distances that contradict each other, and a point that may be in two places, are refused. At most ${LIMITS.surveyPoints} pegs and points and ${LIMITS.distances} distances.`,
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('Survey', 'The pegs and the readings.', EXAMPLE_SURVEYS) },
  responses: {
    200: json(answerSchema(SURVEY_ANSWER), 'Every point, with its error.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountSurveys(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('Survey', schemaOf(SURVEY))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readSurvey(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = workers.survey(read.input)
    return result.ok ? c.json(meant(result.answer), 200) : problem(c, unacceptable(result.faults))
  })
}
