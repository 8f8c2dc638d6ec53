import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { SECTIONS } from '../../catalogue/sections.ts'
import { CURVE_ANSWER } from '../../estimate/questions/one-curve.ts'
import { readCurve } from '../../estimate/questions/read-curve.ts'
import { asWritten } from '../../estimate/read-plan.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { CURVE } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { BENDS } from '../answers/bends.ts'
import { answerSchema } from '../answers/schema.ts'
import { answerBends } from '../bends-answer.ts'
import { BENDS_CSV_HEADER, bendsCsv } from '../bends-csv.ts'
import { EXAMPLE_CURVES } from '../example-plans.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, UNCHANGED } from '../parameters.ts'
import { badParameters, problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { BendsQuery } from '../request/bends-query.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { tableForm, WorkbookOptions } from '../request/table-options.ts'
import { csv, json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'
import { sendTagged } from '../tagged.ts'

const example = answerBends({ diameter: 20 * 304.8, section: '250', gauge: 45, chord: [300, 500], resolution: 0.5 })

const PARAMETERS = `Give radius or diameter of the centre line. A number without a unit is millimetres; a unit follows without a space (diameter=20ft, radius=7ft6in). Values assumed for what is left out are listed in the answer. With a material, the answer also says how to bend the rail, and with a roller bender, how to set it. Sections: ${SECTIONS.map(({ id }) => id).join(', ')}.`

const get = createRoute({
  method: 'get',
  path: '/v1/bends',
  operationId: 'bendOrdinates',
  tags: ['Bends'],
  summary: 'Ordinates of the two rails of one curve, and how to bend them',
  description: PARAMETERS,
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: BendsQuery },
  responses: {
    200: {
      ...json(answerSchema(BENDS), 'Both rails, the outer one first.', example.ok ? example.bends : undefined),
      headers: ETAG_OF_CONTENT,
    },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

const getCsv = createRoute({
  method: 'get',
  path: '/v1/bends.csv',
  operationId: 'bendOrdinatesCsv',
  tags: ['Bends'],
  summary: 'The ordinates and how to bend as CSV',
  description: `${PARAMETERS} One row for each rail and chord; unknown values are empty. With units=in, lengths end in In instead of Mm, and with a fraction in FtIn.`,
  middleware: answersIn('text/csv'),
  parameters: [IF_NONE_MATCH],
  request: { query: query({ ...BendsQuery.shape, ...WorkbookOptions.shape }) },
  responses: {
    200: {
      ...csv(`CSV (RFC 4180), with the header ${BENDS_CSV_HEADER}, if lengths are in mm.`),
      headers: ETAG_OF_CONTENT,
    },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

const post = createRoute({
  method: 'post',
  path: '/v1/bends',
  operationId: 'bendCurve',
  tags: ['Bends'],
  summary: 'How to bend the two rails of one curve',
  description:
    'Send one curve with its rail, which may have test bends or properties of your own, and the bender. The answer has the ordinates, the chord to measure on, the forming radius with its range, the setting of the roller bender and any findings.',
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('Curve', 'The curve.', EXAMPLE_CURVES) },
  responses: {
    200: json(answerSchema(CURVE_ANSWER), 'Both rails, the outer one first.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountBends(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('Curve', schemaOf(CURVE))

  api.openapi(get, (c) => {
    const answer = answerBends(c.req.valid('query'))
    return answer.ok ? sendTagged(c, JSON.stringify(meant(answer.bends))) : problem(c, badParameters(answer.faults))
  })

  api.openapi(getCsv, (c) => {
    const { units, fraction, ...curve } = c.req.valid('query')
    const form = tableForm({ units, fraction }, 'csv')
    const answer = answerBends(curve)
    const faults = [...(form.ok ? [] : form.faults), ...(answer.ok ? [] : answer.faults)]
    if (!form.ok || !answer.ok) return problem(c, badParameters(faults))
    return sendTagged(c, bendsCsv(answer.bends, form.form.lengthsIn), 'text/csv; charset=utf-8; header=present')
  })

  api.openapi(post, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readCurve(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const answer = workers.bendCurve(read.curve)
    if (!answer.ok) return problem(c, unacceptable(asWritten(answer.faults, body.value)))
    return c.json(meant(answer.curve), 200)
  })
}
