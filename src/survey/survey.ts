import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import { type Assumption, completed } from '../plan/fields/complete.ts'
import { SURVEY, type SurveyInput } from '../plan/rows/survey.ts'
import { adjusted } from './adjusting.ts'
import type { SurveyAnswer } from './answer.ts'
import { answered } from './answering.ts'
import { roughElevations } from './heights.ts'
import { type Net, netOf } from './net.ts'
import { roughPlaces } from './placing.ts'

export type SurveyResult =
  | { readonly ok: true; readonly answer: SurveyAnswer }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * Works out a survey: rough elevations and places, then all readings together by least squares.
 *
 * @param input without faults (see `surveyFaults`)
 */
export function workOutSurvey(input: SurveyInput): SurveyResult {
  const assumptions: Assumption[] = []
  const survey = completed(SURVEY, input, '', (field, value, reason) => assumptions.push({ field, value, reason }))
  const net = netOf(survey)
  const elevationsMm = roughElevations(net)
  const sides = new Map(
    survey.points.flatMap(({ name, side }) => (side === null ? [] : [[net.names.indexOf(name), side] as const])),
  )
  const { places, reasons, faults } = roughPlaces(net, elevationsMm, sides)
  const found = [...slopeFaults(net, elevationsMm), ...faults]
  if (found.length > 0) return { ok: false, faults: found }
  const best = adjusted(net, { places, elevationsMm })
  if (!best) return { ok: false, faults: [UNSETTLED] }
  return { ok: true, answer: answered({ survey, net, adjusted: best, noPlaces: reasons }, assumptions) }
}

const UNSETTLED: Fault = {
  path: ['distances'],
  code: 'contradictory',
  detail: 'the distances contradict each other so much that no places fit them',
  hint: 'look for a slip in a distance or in the place of a peg; leave out some readings to find it',
}

/** Distances along a slope that cannot be reduced. */
function slopeFaults({ readings, names }: Net, elevationsMm: readonly (number | null)[]): Fault[] {
  return readings.flatMap(({ isSlope, from, to, measuredMm, index }): Fault[] => {
    if (!isSlope) return []
    const missing = [from, to].filter((end) => elevationsMm[end] === null)
    if (missing.length > 0)
      return [
        {
          path: ['distances', index, 'slope'],
          code: 'missing',
          detail: `a distance along the slope needs the height of both ends; that of ${missing.map((end) => names[end]).join(' and ')} is not known`,
          hint: 'give a peg its elevation, add a rise to it, or hold the tape level',
        },
      ]
    const heightMm = Math.abs(elevationsMm[to]! - elevationsMm[from]!)
    if (heightMm < measuredMm) return []
    return [
      {
        path: ['distances', index, 'length'],
        code: 'contradictory',
        detail: `${formatMm(measuredMm, 1)} along the slope is no more than the difference in height of its ends, ${formatMm(heightMm, 1)}`,
        hint: 'check the distance and the rises',
      },
    ]
  })
}
