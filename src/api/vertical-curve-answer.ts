import type { z } from '@hono/zod-openapi'
import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { COORDINATE, LENGTH, LENGTH_OR_ZERO } from '../plan/fields/bounds.ts'
import { shortestVerticalCurves } from '../track/shortest-vertical-curve.ts'
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

const CAR = {
  carLength: lengthParameter('CarOverGradesLength', LENGTH)
    .optional()
    .openapi(about('Length of the body of a car for which the shortest curve is wanted, with truckCentres.')),
  truckCentres: lengthParameter('CarOverGradesTruckCentres', LENGTH)
    .optional()
    .openapi(about('Distance between the pivots of its trucks; no more than carLength.')),
  couplerLength: lengthParameter('CarOverGradesCoupler', LENGTH_OR_ZERO)
    .optional()
    .openapi(about('How far its coupler reaches beyond the body; 0 when left out.')),
  couplerHeightDifference: lengthParameter('CarOverGradesCouplerDifference', LENGTH)
    .optional()
    .openapi(about('How far the couplers of two such cars may be apart in height.')),
  undersideHeight: lengthParameter('CarOverGradesUnderside', LENGTH)
    .optional()
    .openapi(about('Height above the rails of the lowest part of the car.')),
}

export const VerticalCurveQuery = query({
  ...GRADES,
  ...CAR,
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
export function answerVerticalCurve(request: GradesRequest): VerticalCurveAnswer {
  const { gradeIn, gradeOut, length, from = 0, elevation = 0, at } = request
  const given: VerticalCurveGiven = {
    fromMm: from,
    elevationMm: elevation,
    lengthMm: length,
    gradeInPct: gradeIn,
    gradeOutPct: gradeOut,
  }
  const beyond = (at ?? []).filter((stationMm) => stationMm < from || stationMm > from + length)
  const ofStations: ParameterFault[] = beyond.map((stationMm) => ({
    parameter: 'at',
    code: 'out-of-range',
    detail: `${formatMm(stationMm)} is not within the curve, which goes from ${formatMm(from)} to ${formatMm(from + length)}`,
    hint: 'give a station within the curve',
  }))
  const faults = [...ofStations, ...carFaults(request)]
  if (faults.length > 0) return { ok: false, faults }
  const shortest = shortestFor(request)
  return {
    ok: true,
    curve: { ...verticalCurve(given, at ?? evenStations(given, PARTS)), ...(shortest && { shortest }) },
  }
}

/** How long the curve has to be for the car of the request; null without one. */
function shortestFor(request: GradesRequest): NonNullable<VerticalCurve['shortest']> | null {
  const { gradeIn, gradeOut, carLength, truckCentres, couplerLength = 0 } = request
  const { couplerHeightDifference = null, undersideHeight = null } = request
  if (carLength === undefined || truckCentres === undefined) return null
  const car = {
    lengthMm: carLength,
    truckCentresMm: truckCentres,
    couplerMm: couplerLength,
    undersideMm: undersideHeight,
  }
  return shortestVerticalCurves(gradeOut - gradeIn, car, couplerHeightDifference)
}

/** A car of which only a part is given, or whose trucks are further apart than it is long. */
function carFaults({ carLength, truckCentres, couplerLength, ...limits }: GradesRequest): ParameterFault[] {
  const { couplerHeightDifference, undersideHeight } = limits
  const ofCar = [carLength, truckCentres, couplerLength, couplerHeightDifference, undersideHeight]
  if (ofCar.every((each) => each === undefined)) return []
  const faults: ParameterFault[] = []
  const missing = (parameter: string, detail: string, hint: string) =>
    faults.push({ parameter, code: 'missing', detail, hint })
  if (carLength === undefined) missing('carLength', 'the car has no length', 'give that of its body')
  if (truckCentres === undefined)
    missing('truckCentres', 'the car has no trucks', 'give the distance between their pivots')
  if (carLength !== undefined && truckCentres !== undefined && exceeds(truckCentres, carLength))
    faults.push({
      parameter: 'truckCentres',
      code: 'contradictory',
      detail: `the trucks are ${formatMm(truckCentres, 3)} apart, more than the ${formatMm(carLength, 3)} of the car`,
      hint: 'truckCentres is the distance between the pivots of the trucks',
    })
  if (couplerHeightDifference === undefined && undersideHeight === undefined)
    missing(
      'couplerHeightDifference',
      'nothing says what the car is checked for',
      'give couplerHeightDifference, undersideHeight, or both',
    )
  return faults
}
