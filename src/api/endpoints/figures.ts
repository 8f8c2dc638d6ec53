import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { FIGURE_ANSWER } from '../../estimate/questions/figure.ts'
import { readFigure } from '../../estimate/questions/read-figure.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { FIGURE } from '../../plan/rows/figures.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_FIGURES } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/figures',
  operationId: 'layOutFigure',
  tags: ['Figures'],
  summary: 'Lay out a crossover, a yard, a siding or another figure of track',
  description: `Works out the tracks of a figure from a few measures: crossover, ladder (a yard), passing-loop, reverse-loop, wye, parallel (double track) or junction. The answer is ready to be put into a plan with the same kinds of turnout, and has the findings of an estimate of these tracks alone. What cannot be built is refused with the nearest that can. At most ${LIMITS.figureTracks} tracks of a yard and ${LIMITS.figureElements} elements of a track to be doubled.`,
  middleware: answersIn('application/json'),
  request: {
    query: query({}),
    body: jsonBody('FigureRequest', 'The figure, its kinds of turnout and its measures.', EXAMPLE_FIGURES),
  },
  responses: {
    200: json(answerSchema(FIGURE_ANSWER), 'The tracks of the figure.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountFigures(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('FigureRequest', schemaOf(FIGURE))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readFigure(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const worked = workers.figure(read.question)
    return worked.ok ? c.json(meant(worked.answer), 200) : problem(c, unacceptable(worked.faults))
  })
}
