import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { meant } from '../../measure/meant.ts'
import { OVERHANG, overhangOn } from '../../room/overhang.ts'
import { answerSchema } from '../answers/schema.ts'
import { carOnCurve, OverhangQuery } from '../overhang-answer.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, UNCHANGED } from '../parameters.ts'
import { badParameters, problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { json, problems } from '../responses.ts'
import { sendTagged } from '../tagged.ts'

const get = createRoute({
  method: 'get',
  path: '/v1/overhangs',
  operationId: 'overhang',
  tags: ['Room'],
  summary: 'How far a car reaches over the sides of a curve',
  description:
    'A car on two trucks whose pivots are on the centre line of a curve longer than the car. Give radius or diameter of the centre line. A number without a unit is millimetres; a unit follows without a space (radius=8ft).',
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: OverhangQuery },
  responses: {
    200: {
      ...json(
        answerSchema(OVERHANG),
        'Reach to both sides.',
        overhangOn(1200, { lengthMm: 450, truckCentresMm: 300, widthMm: 110 }),
      ),
      headers: ETAG_OF_CONTENT,
    },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

export function mountOverhangs(api: OpenAPIHono): void {
  api.openapi(get, (c) => {
    const read = carOnCurve(c.req.valid('query'))
    if (!read.ok) return problem(c, badParameters(read.faults))
    return sendTagged(c, JSON.stringify(meant(overhangOn(read.radiusMm, read.car))))
  })
}
