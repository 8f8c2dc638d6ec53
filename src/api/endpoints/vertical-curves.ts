import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { meant } from '../../measure/meant.ts'
import { VERTICAL_CURVE, verticalCurve } from '../../track/vertical-curve.ts'
import { answerSchema } from '../answers/schema.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, UNCHANGED } from '../parameters.ts'
import { badParameters, problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { json, problems } from '../responses.ts'
import { sendTagged } from '../tagged.ts'
import { answerVerticalCurve, VerticalCurveQuery } from '../vertical-curve-answer.ts'

const HUMP = { fromMm: 3000, elevationMm: 40, lengthMm: 1200, gradeInPct: 2, gradeOutPct: -1 }

const get = createRoute({
  method: 'get',
  path: '/v1/vertical-curves',
  operationId: 'verticalCurve',
  tags: ['Grades'],
  summary: 'The vertical curve between two grades',
  description:
    'A parabola that leads from one grade to another: its elevations station by station, and its highest or lowest point. With a car, also how long the curve has to be for it. A number without a unit is millimetres; a unit follows without a space (length=4ft).',
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: VerticalCurveQuery },
  responses: {
    200: {
      ...json(answerSchema(VERTICAL_CURVE), 'The curve.', verticalCurve(HUMP, [3000, 3600, 4200])),
      headers: ETAG_OF_CONTENT,
    },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

export function mountVerticalCurves(api: OpenAPIHono): void {
  api.openapi(get, (c) => {
    const answer = answerVerticalCurve(c.req.valid('query'))
    return answer.ok ? sendTagged(c, JSON.stringify(meant(answer.curve))) : problem(c, badParameters(answer.faults))
  })
}
