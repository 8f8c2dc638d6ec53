import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { readSettingOut } from '../../estimate/questions/read-setting-out.ts'
import { SETTING_OUT_ANSWER, USUAL_INTERVAL_SHOWN } from '../../estimate/questions/setting-out.ts'
import { meant } from '../../measure/meant.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { SETTING_OUT } from '../../plan/rows/questions.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { EXAMPLE_SETTING_OUTS } from '../example-plans.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { query } from '../request/query.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'

const endpoint = createRoute({
  method: 'post',
  path: '/v1/setting-outs',
  operationId: 'setOutCurves',
  tags: ['Setting out'],
  summary: 'Pegs for setting out the curves of a plan',
  description: `Every arc and easement with its pegs on the centre line: one at each end, and between them one at every multiple of the interval along the track. Each peg is given by tangent offset, by offset from the long chord, by deflection angle and chord, and by its position on the sheet. At most ${LIMITS.pegs} pegs.`,
  middleware: answersIn('application/json'),
  request: {
    query: query({}),
    body: jsonBody('SettingOutRequest', 'The plan and the distance between pegs.', EXAMPLE_SETTING_OUTS),
  },
  responses: {
    200: json(answerSchema(SETTING_OUT_ANSWER), 'The curves of each track, in order along it.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

const USUAL_INTERVAL = { field: '/interval', value: USUAL_INTERVAL_SHOWN, reason: 'not given' }

export function mountSettingOuts(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('SettingOutRequest', schemaOf(SETTING_OUT))

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readSettingOut(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const { assumptions, ...answer } = workers.setOut(read.plan, read.intervalMm)
    // Pointers start from the request, not from the plan.
    const ofPlan = assumptions.map((assumption) => ({ ...assumption, field: `/plan${assumption.field}` }))
    const assumed = read.intervalMm === undefined ? [...ofPlan, USUAL_INTERVAL] : ofPlan
    return c.json(meant({ ...answer, assumptions: assumed }), 200)
  })
}
