import { createRoute, type OpenAPIHono, type z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { meant } from '../../measure/meant.ts'
import { answerSchema } from '../answers/schema.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, UNCHANGED } from '../parameters.ts'
import { badParameters, problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { parameterFaultsOf } from '../request/parameter-faults.ts'
import { TurnoutsQuery } from '../request/turnouts-query.ts'
import { json, problems } from '../responses.ts'
import { sendTagged } from '../tagged.ts'
import { answerTurnout, ONE_TURNOUT } from '../turnouts-answer.ts'

const example = answerTurnout({ number: 6, heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 })

const get = createRoute({
  method: 'get',
  path: '/v1/turnouts',
  operationId: 'turnoutFigures',
  tags: ['Turnouts'],
  summary: 'The geometry of one turnout: closure radius, lead, closure rails',
  description:
    'Give the frog by number, by frogAngle or (curved-frog) by radius. With heelSpread, heelAngle, pointLength and toeLength the closure between straight switch rails and a straight frog is worked out; without them the curve is tangent to the straight track at the points (with half-cot: centre-line radius 2gN², lead 2gN). All lengths are to the theoretical point of the frog. A number without a unit is millimetres; a unit follows without a space (gauge=4ft8-1/2in).',
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: TurnoutsQuery },
  responses: {
    200: {
      ...json(answerSchema(ONE_TURNOUT), 'Its figures.', example.ok ? example.turnout : undefined),
      headers: ETAG_OF_CONTENT,
    },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

export function mountTurnouts(api: OpenAPIHono): void {
  api.openapi(
    get,
    (c) => {
      const answer = answerTurnout(c.req.valid('query'))
      return answer.ok ? sendTagged(c, JSON.stringify(meant(answer.turnout))) : problem(c, badParameters(answer.faults))
    },
    allFaults,
  )
}

/** Faults of single parameters, and those between the others. */
function allFaults(result: { readonly success: boolean; readonly error?: z.ZodError }, c: Context) {
  if (result.success || !result.error) return undefined
  const found = parameterFaultsOf(result.error.issues)
  const bad = new Set(found.map(({ parameter }) => parameter))
  const rest = TurnoutsQuery.safeParse(
    Object.fromEntries(Object.entries(c.req.query()).filter(([name]) => !bad.has(name))),
  )
  const answer = rest.success ? answerTurnout(rest.data) : null
  // What is missing may be what could not be read.
  const more = answer && !answer.ok ? answer.faults.filter(({ code }) => code !== 'missing') : []
  return problem(c, badParameters([...found, ...more]))
}
