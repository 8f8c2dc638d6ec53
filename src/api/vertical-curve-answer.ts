import type { z } from '@hono/zod-openapi'
import { formatMm } from '../measure/length.ts'
import { COORDINATE, LENGTH, LENGTH_OR_ZERO } from '../plan/fields/bounds.ts'
import { evenStations, type VerticalCurve, type VerticalCurveGiven, verticalCurve } from '../track/vertical-curve.ts'
import type { ParameterFault } from './problem.ts'
import { lengthParameter, lengthsParameter, numberParameter, query } from './request/query.ts'

const about = (description: string) => ({ param: { description } })

/** The steepest that numbers make sense for: 45 degrees. */
const GRADE = { least: -100, most: 100 }

/** Points of a curve for which no stations are given divide it into this many equal parts. */
const PARTS = 10

const MOST_STATIONS = 500

export const GRADES = {
  gradeIn: numberParameter('GradeIn', GRADE).openapi(
    about('Grade before the curve, percent; negative where the track falls.'),
  ),
  gradeOut: numberParameter('GradeOut', GRADE).openapi(about('Grade after the curve, percent.')),
  length: lengthParameter('VerticalCurveLength', LENGTH).openapi(about('Level length of the curve.')),
  from: lengthParameter('VerticalCurveStart', LENGTH_OR_ZERO)
    .optional()
    .openapi(about('Station at which the curve begins; 0 when left out.')),
  elevation: lengthParameter('VerticalCurveElevation', COORDINATE)
    .optional()
    .openapi(about('Elevation where the curve begins; 0 when left out.')),
}

export const VerticalCurveQuery = query({
  ...GRADES,
  at: lengthsParameter('VerticalCurveStations', LENGTH_OR_ZERO, MOST_STATIONS)
    .optional()
    .openapi(
      about(
        'Station at which to give elevation and grade; may be repeated. When left out, the start, the end and nine stations between them at equal distances.',
      ),
    ),
})

type GradesRequest = Omit<z.output<typeof VerticalCurveQuery>, 'refresh'>

type VerticalCurveAnswer =
  | { readonly ok: true; readonly curve: VerticalCurve }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/** The curve, or each station that is not within it. */
export function answerVerticalCurve({ gradeIn, gradeOut, length, from = 0, elevation = 0, at }: GradesRequest) {
  const given: VerticalCurveGiven = {
    fromMm: from,
    elevationMm: elevation,
    lengthMm: length,
    gradeInPct: gradeIn,
    gradeOutPct: gradeOut,
  }
  const beyond = (at ?? []).filter((stationMm) => stationMm < from || stationMm > from + length)
  const faults: ParameterFault[] = beyond.map((stationMm) => ({
    parameter: 'at',
    code: 'out-of-range',
    detail: `${formatMm(stationMm)} is not within the curve, which goes from ${formatMm(from)} to ${formatMm(from + length)}`,
    hint: 'give a station within the curve',
  }))
  const answer: VerticalCurveAnswer =
    faults.length > 0
      ? { ok: false, faults }
      : { ok: true, curve: verticalCurve(given, at ?? evenStations(given, PARTS)) }
  return answer
}
