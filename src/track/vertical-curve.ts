import {
  type Answer,
  component,
  length,
  list,
  nullable,
  number,
  object,
  optional,
  word,
} from '../plan/fields/answer.ts'
import { VERTICAL_CURVE_REASONS } from './shortest-vertical-curve.ts'

/** A parabola between two grades. */
export interface VerticalCurveGiven {
  /** Station and elevation of its start. */
  readonly fromMm: number
  readonly elevationMm: number
  /** Along the level. */
  readonly lengthMm: number
  /** Rise over level run, percent, rising along the track positive. */
  readonly gradeInPct: number
  readonly gradeOutPct: number
}

export const PROFILE_POINT = component('ProfilePoint', 'Elevation and grade of a track at a station.', {
  atMm: length({ title: 'Station' }),
  elevationMm: length({ title: 'Elevation' }),
  gradePct: number('Rise over level run, percent; negative where the track falls.'),
})

export const VERTICAL_CURVE = component('VerticalCurve', 'The parabola between two grades.', {
  externalMm: length(
    'Distance between the middle of the curve and the point where the two grades would meet, mm. The curve is below that point on a hump and above it in a dip.',
  ),
  radiusMm: nullable(
    length('Radius of curvature where the track is level, mm, which is its least; null without a change of grade.'),
  ),
  turning: nullable(
    object({ atMm: length(), elevationMm: length() }),
    'The highest point of a hump or the lowest of a dip; null if the track does not become level within the curve.',
  ),
  points: list(PROFILE_POINT),
  shortest: optional(
    list(
      object({
        reason: word(VERTICAL_CURVE_REASONS, {
          says: 'couplers: as far apart in height as is allowed; belly: the underside between the trucks just clears the rails, on a hump; ends: the ends of the body just do, in a dip.',
        }),
        lengthMm: length('The shortest curve between these grades, mm; 0 where none is needed.'),
      }),
      'Only if the request gives a car: how long the curve has to be for it.',
    ),
  ),
})

export type VerticalCurve = Answer<typeof VERTICAL_CURVE>
export type ProfilePoint = Answer<typeof PROFILE_POINT>

/**
 * A vertical curve, a parabola from grade g1 to grade g2 over the level length L:
 *
 * y(x) = y0 + g1·x + (g2 − g1)·x²/(2L)   elevation, mm, x from its start
 * g(x) = g1 + (g2 − g1)·x/L              grade
 * e = |g2 − g1|·L/8                      external distance, mm
 * x = g1·L/(g1 − g2)                     where it is level, if that is within 0 … L
 * R = L/|g2 − g1|                        radius of curvature there, mm
 *
 * Grades are rise over level run as fractions; percent outside. Range: L > 0. Source: surveying textbooks; the form and a
 * worked example in /tests/published/vertical-curves.test.ts, which checks it.
 *
 * @param stationsMm stations within the curve at which points are wanted, in order
 */
export function verticalCurve(given: VerticalCurveGiven, stationsMm: readonly number[]): VerticalCurve {
  const { fromMm, lengthMm, gradeInPct, gradeOutPct } = given
  const changePct = gradeOutPct - gradeInPct
  const levelAtMm = changePct === 0 ? null : (-gradeInPct / changePct) * lengthMm
  const turns = levelAtMm !== null && levelAtMm >= 0 && levelAtMm <= lengthMm
  const turning = turns ? pointAt(given, fromMm + levelAtMm) : null
  return {
    externalMm: (Math.abs(changePct / 100) * lengthMm) / 8,
    radiusMm: changePct === 0 ? null : lengthMm / Math.abs(changePct / 100),
    turning: turning && { atMm: turning.atMm, elevationMm: turning.elevationMm },
    points: stationsMm.map((atMm) => pointAt(given, atMm)),
  }
}

function pointAt(given: VerticalCurveGiven, atMm: number): ProfilePoint {
  const { fromMm, elevationMm, lengthMm, gradeInPct, gradeOutPct } = given
  const x = atMm - fromMm
  const changePct = gradeOutPct - gradeInPct
  const gradePct = gradeInPct + (changePct * x) / lengthMm
  return { atMm, elevationMm: elevationMm + ((gradeInPct + gradePct) / 200) * x, gradePct }
}

/** Stations from the start to the end of a curve, at equal distances. */
export function evenStations({ fromMm, lengthMm }: VerticalCurveGiven, intervals: number): number[] {
  return Array.from({ length: intervals + 1 }, (_, index) => fromMm + (lengthMm * index) / intervals)
}
