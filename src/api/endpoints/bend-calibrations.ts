import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { CALIBRATION } from '../../bending/forming/types.ts'
import { bendingOf } from '../../estimate/bending.ts'
import { SECTION_PROPERTIES } from '../../estimate/bill/answer.ts'
import { sectionPropertiesAnswer } from '../../estimate/bill/rail-summary.ts'
import { completeBender } from '../../estimate/complete-bender.ts'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import { completeMetal, completeSection } from '../../estimate/complete-rail.ts'
import { formatMm } from '../../measure/length.ts'
import { ASSUMPTION, type Assumption } from '../../plan/assumption.ts'
import { component, list } from '../../plan/fields/answer.ts'
import { answerSchema } from '../answers/schema.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { readJsonBody } from '../request/json-body.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'
import { CalibrationRequestSchema } from '../schemas/bends.ts'
import { EXAMPLE_CALIBRATIONS } from '../schemas/example-plans.ts'
import { query } from '../schemas/query.ts'
import { readCalibration } from '../schemas/read-curve.ts'

const CALIBRATION_ANSWER = component('CalibrationAnswer', 'What test bends tell about a rail.', {
  calibration: CALIBRATION,
  section: SECTION_PROPERTIES,
  assumptions: list(ASSUMPTION),
})

const endpoint = createRoute({
  method: 'post',
  path: '/v1/bend-calibrations',
  operationId: 'calibrateBends',
  tags: ['Bends'],
  summary: 'What test bends tell about a rail',
  description:
    'Radii of the rail under load and released tell its effective yield; passes through a roller bender tell that bender’s own line for this rail. Put the same under `rail.calibration` of a plan to have it used there.',
  middleware: answersIn('application/json'),
  request: {
    query: query({}),
    body: jsonBody('CalibrationRequest', 'The rail with its test bends.', EXAMPLE_CALIBRATIONS),
  },
  responses: {
    200: json(answerSchema(CALIBRATION_ANSWER), 'The yield with its band, and how well it is determined.'),
    ...problems(...REFUSALS_OF_A_BODY),
  },
})

export function mountBendCalibrations(api: OpenAPIHono): void {
  api.openAPIRegistry.register('CalibrationRequest', CalibrationRequestSchema)

  api.openapi(endpoint, async (c) => {
    const body = await readJsonBody(c)
    if (!body.ok) return problem(c, body.refusal)
    const read = readCalibration(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))

    const assumptions: Assumption[] = []
    const assume = (field: string, value: string, reason: string) => assumptions.push({ field, value, reason })
    const { rail, bender, resolution: resolutionMm = DEFAULTS.resolutionMm } = read.asked
    const section = completeSection(rail.section, assume)
    const bending = bendingOf({
      section,
      metal: completeMetal(rail, assume),
      calibration: rail.calibration ?? [],
      bender: completeBender(bender, () => {}),
      gauge: DEFAULTS.gaugeMm,
      chords: [],
      resolution: resolutionMm,
      supplies: { ties: { spacing: DEFAULTS.tieSpacingMm } },
    })
    if (!bending.ok) return problem(c, unacceptable(bending.faults))
    if (read.asked.resolution === undefined)
      assume('/resolution', formatMm(DEFAULTS.resolutionMm), 'a steel rule read with care')
    const answer = {
      calibration: bending.calibration!,
      section: sectionPropertiesAnswer(section.properties),
      assumptions,
    }
    return c.json(answer, 200)
  })
}
