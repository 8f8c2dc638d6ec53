import { firstIndexWhere } from '../measure/search.ts'
import type { Turn } from '../plan/rows/track.ts'
import type { GradeStretch } from './grade.ts'
import { curvatureOn, turnedBetween } from './place.ts'
import { RunningSum } from './running-sum.ts'
import type { PlacedElement } from './types.ts'

/**
 * Distance from the centre line to the line along which a rail's length is taken, the middle of its head:
 * (gauge + head width)/2, gauge measured between the inner faces of the heads.
 */
export function railOffsetMm(gaugeMm: number, headWidthMm: number): number {
  return (gaugeMm + headWidthMm) / 2
}

/** The same as a signed offset: left of the track positive. */
export function signedRailOffsetMm(side: Turn, gaugeMm: number, headWidthMm: number): number {
  const offset = railOffsetMm(gaugeMm, headWidthMm)
  return side === 'left' ? offset : -offset
}

/**
 * Plan length, on one element, of a line parallel to the centre line between two stations, mm.
 *
 * ℓ = L − o·Δθ, o the offset (left positive), Δθ the heading change (left positive)
 *
 * exact for any curve while |κ|·|o| < 1: ∫(1 − o·κ) ds. Checked as a property and against
 * outer − inner = b·Δ in tests/track/rails.test.ts.
 */
function planLengthOn(element: PlacedElement, offsetLeftMm: number, fromMm: number, toMm: number): number {
  const whole = fromMm <= element.fromMm && toMm >= element.toMm
  const alongMm = whole ? element.lengthMm : Math.min(toMm, element.toMm) - Math.max(fromMm, element.fromMm)
  return alongMm - offsetLeftMm * turnedBetween(element, fromMm, toMm)
}

/** A stretch of one element on one grade. */
interface Interval {
  readonly element: PlacedElement
  /** Stations on the centre line. */
  readonly fromMm: number
  readonly toMm: number
  /** Distance along the laid rail at `fromMm`. */
  readonly railFromMm: number
  /** √(1 + g²): laid length over plan length. */
  readonly stretch: number
}

/** One rail of a track as laid: distances run along the rail from its own start, grade included. */
export interface RailLine {
  readonly offsetLeftMm: number
  readonly lengthMm: number
  /** One entry per element, in order: where it begins and ends along this rail. */
  readonly elements: readonly { readonly fromMm: number; readonly toMm: number; readonly lengthMm: number }[]
  readonly intervals: readonly Interval[]
}

/**
 * Lays a rail at a signed offset from the centre line. On a grade g (rise over run) each stretch is √(1 + g²) of its
 * plan length. `grades` must cover the track (see `gradesAlong`); none means level. Linear in elements plus grades.
 */
export function layRail(
  placed: readonly PlacedElement[],
  grades: readonly GradeStretch[],
  offsetLeftMm: number,
): RailLine {
  const intervals: Interval[] = []
  const elements: { fromMm: number; toMm: number; lengthMm: number }[] = []
  const rail = new RunningSum()
  let grade = 0
  for (const element of placed) {
    const start = rail.value
    const own = new RunningSum()
    let fromMm = element.fromMm
    while (fromMm < element.toMm) {
      while (grade < grades.length - 1 && grades[grade]!.toMm <= fromMm) grade++
      const lastGrade = grade >= grades.length - 1
      const toMm = lastGrade ? element.toMm : Math.min(element.toMm, grades[grade]!.toMm)
      const stretch = Math.hypot(1, grades[grade]?.grade ?? 0)
      intervals.push({ element, fromMm, toMm, railFromMm: rail.value, stretch })
      const lengthMm = stretch * planLengthOn(element, offsetLeftMm, fromMm, toMm)
      own.add(lengthMm)
      rail.add(lengthMm)
      fromMm = toMm
    }
    elements.push({ fromMm: start, toMm: rail.value, lengthMm: own.value })
  }
  return { offsetLeftMm, lengthMm: rail.value, elements, intervals }
}

/** The distance along a laid rail at a station on the centre line, kept between the rail's ends. O(log n). */
export function railDistanceAt(rail: RailLine, stationMm: number): number {
  const interval = rail.intervals[lastNotAfter(rail.intervals, 'fromMm', stationMm)]
  if (!interval) return 0
  if (stationMm >= interval.toMm && interval === rail.intervals.at(-1)) return rail.lengthMm
  const { element, fromMm, railFromMm, stretch } = interval
  if (stationMm <= fromMm) return railFromMm
  return railFromMm + stretch * planLengthOn(element, rail.offsetLeftMm, fromMm, stationMm)
}

/**
 * The station on the centre line at a distance along a laid rail; the inverse of `railDistanceAt`. O(log n).
 *
 * On one stretch d/√(1 + g²) = s − o·(κ·s + c·s²/2), κ the curvature where the stretch begins and c its rate of change:
 * with B = 1 − o·κ and A = −o·c/2 the root is s = 2d/(B + √(B² + 4·A·d)), which is stable down to A = 0 (arc, tangent).
 */
export function stationAtRailDistance(rail: RailLine, distanceMm: number): number {
  const interval = rail.intervals[lastNotAfter(rail.intervals, 'railFromMm', distanceMm)]
  if (!interval) return 0
  const { element, fromMm, toMm, railFromMm, stretch } = interval
  const planMm = Math.max(0, distanceMm - railFromMm) / stretch
  const rate = (element.endCurvature - element.startCurvature) / element.lengthMm
  const b = 1 - rail.offsetLeftMm * curvatureOn(element, fromMm)
  const a = (-rail.offsetLeftMm * rate) / 2
  const root = Math.sqrt(Math.max(0, b * b + 4 * a * planMm))
  return Math.min(fromMm + (2 * planMm) / (b + root), toMm)
}

/** Index of the last interval whose `key` is ≤ value; 0 when there is none. */
function lastNotAfter(intervals: readonly Interval[], key: 'fromMm' | 'railFromMm', value: number): number {
  return Math.max(0, firstIndexWhere(intervals.length, (index) => intervals[index]![key] > value) - 1)
}
