import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { MOVE_ANSWER } from '../../estimate/questions/move.ts'
import { readMove } from '../../estimate/questions/read-move.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { MOVE } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_MOVES } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/moves',
  operationId: 'moveTrack',
  tags: ['Estimates'],
  summary: 'Move a track',
  description:
    'Moves one track of a plan on the sheet, such as 80 mm up: its start and, where that is a position, the place its end must come to. Tracks that continue from it or leave its turnouts go along; ends of other tracks stay where they must come to, and a track that starts from another is refused. The answer has the findings of the plan with it, and a JSON Patch that moves it in the plan as it was sent.',
  middleware: answersIn('application/json'),
  request: { query: query({}), body: jsonBody('MoveRequest', 'The plan, the track, and by how much.', EXAMPLE_MOVES) },
  responses: {
    200: json(answerSchema(MOVE_ANSWER), 'What moves along, and what is found then.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountMoves(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('MoveRequest', schemaOf(MOVE))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readMove(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const moved = workers.moveTrack(read.asked)
    return moved.ok ? c.json(meant(moved.answer), 200) : problem(c, unacceptable(moved.faults))
  })
}
