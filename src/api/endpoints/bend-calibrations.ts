import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { CALIBRATION_ALONE } from '../../estimate/questions/calibration.ts'
import { readCalibration } from '../../estimate/questions/read-curve.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { CALIBRATION } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_CALIBRATIONS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/bend-calibrations',
  operationId: 'calibrateBends',
  tags: ['Bends'],
  summary: 'Calibrate a rail by test bends',
  description:
    'From radii of the rail under load and after release this works out its effective yield; from passes through a roller bender, the line of that bender for this rail. To use the test bends in a plan, put them in its `rail.calibration`.',
  middleware: answersIn('application/json'),
  request: {
    query: query({}),
    body: jsonBody('CalibrationRequest', 'The rail with its test bends.', EXAMPLE_CALIBRATIONS),
  },
  responses: {
    200: json(answerSchema(CALIBRATION_ALONE), 'The yield with its range, and how well the test bends determine it.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountBendCalibrations(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('CalibrationRequest', schemaOf(CALIBRATION))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readCalibration(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))

    const calibrated = workers.calibrate(read.asked)
    if (!calibrated.ok) return problem(c, unacceptable(calibrated.faults))
    return c.json(meant(calibrated.answer), 200)
  })
}
