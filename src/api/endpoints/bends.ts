import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { SECTIONS } from '../../catalogue/sections.ts'
import { answerBends } from '../bends-answer.ts'
import { badParameters, problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { json, problems } from '../responses.ts'
import { BendsQuery, BendsSchema } from '../schemas/bends.ts'

const example = answerBends({ diameter: 20 * 304.8, section: '250', gauge: 45, chord: [300, 500] })

const endpoint = createRoute({
  method: 'get',
  path: '/v1/bends',
  operationId: 'bendOrdinates',
  tags: ['Bends'],
  summary: 'Ordinates for the two rails of one curve',
  description: `Give the curve by radius or diameter of the track's centre line. A bare number is millimetres; units may be glued on (diameter=20ft, radius=7ft6in). What is left out is assumed and listed. Sections: ${SECTIONS.map(({ id }) => id).join(', ')}.`,
  middleware: answersIn('application/json'),
  request: { query: BendsQuery },
  responses: {
    200: json(BendsSchema, 'Both rails, outer first.', example.ok ? example.bends : undefined),
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

export function mountBends(api: OpenAPIHono): void {
  api.openapi(endpoint, (c) => {
    const answer = answerBends(c.req.valid('query'))
    return answer.ok ? c.json(answer.bends, 200) : problem(c, badParameters(answer.faults))
  })
}
