import { firstIndexWhere } from '../measure/search.ts'
import type { Turn } from '../plan/rows/track.ts'
import { alongAtLengthMm, curvedLengthMm } from './curved-length.ts'
import { type GradeStretch, gradeWithin } from './grade.ts'
import { curvatureOn, turnedBetween } from './place.ts'
import { RunningSum } from './running-sum.ts'
import { type PlacedElement, partsOf } from './types.ts'

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

/**
 * Laid length, on one element and one grade, of a line parallel to the centre line between two stations, mm.
 *
 * L = √(ℓ² + (g·s)²), ℓ its own plan length, s that of the centre line, g the grade (rise over run of the centre line)
 *
 * The rails rise together, so the inner rail of a curve, which is shorter, is the steeper one. Exact on arcs and
 * tangents, for any g and |κ|·|o| < 1; on an easement within g²/2 of the variance of 1 − o·κ. Checked against the length
 * of a fine polygon in tests/track/graded-rails.test.ts.
 */
function gradedLengthOn(element: PlacedElement, offsetLeftMm: number, grade: number, fromMm: number, toMm: number) {
  const planMm = planLengthOn(element, offsetLeftMm, fromMm, toMm)
  if (grade === 0) return planMm
  const centreMm = Math.min(toMm, element.toMm) - Math.max(fromMm, element.fromMm)
  return Math.hypot(planMm, grade * centreMm)
}

/** Laid length from where an interval begins to a station within it, mm. */
function laidLength({ element, fromMm, grade, gradePerMm }: Stretch, offsetLeftMm: number, toMm: number): number {
  if (gradePerMm === 0) return gradedLengthOn(element, offsetLeftMm, grade, fromMm, toMm)
  const along = parallelTo(element, offsetLeftMm, fromMm)
  return curvedLengthMm({ ...along, grade, gradePerMm }, toMm - fromMm)
}

/** A line parallel to an element: mm of its plan per mm of the centre line, at a station and how that changes. */
function parallelTo(element: PlacedElement, offsetLeftMm: number, fromMm: number) {
  const rate = (element.endCurvature - element.startCurvature) / element.lengthMm
  return { perMm: 1 - offsetLeftMm * curvatureOn(element, fromMm), perMm2: -offsetLeftMm * rate }
}

type Stretch = Pick<Interval, 'element' | 'fromMm' | 'grade' | 'gradePerMm'>

/** A stretch of one element on one grade or one vertical curve. */
interface Interval {
  readonly element: PlacedElement
  /** Stations on the centre line. */
  readonly fromMm: number
  readonly toMm: number
  /** Distance along the laid rail at `fromMm`. */
  readonly railFromMm: number
  /** Rise over level run of the centre line, where the stretch begins. */
  readonly grade: number
  /** Change of the grade per mm of the centre line: not 0 on a vertical curve. */
  readonly gradePerMm: number
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
 * Lays a rail at a signed offset from the centre line. `grades` must cover the track (see `gradesOn`); none means level. Linear in elements plus grades.
 */
export function layRail(
  placed: readonly PlacedElement[],
  grades: readonly GradeStretch[],
  offsetLeftMm: number,
): RailLine {
  const intervals: Interval[] = []
  const elements: { fromMm: number; toMm: number; lengthMm: number }[] = []
  const rail = new RunningSum()
  let at = 0
  for (const element of placed) {
    const start = rail.value
    const own = new RunningSum()
    for (const part of partsOf(element)) {
      let fromMm = part.fromMm
      while (fromMm < part.toMm) {
        while (at < grades.length - 1 && grades[at]!.toMm <= fromMm) at++
        const lastGrade = at >= grades.length - 1
        const toMm = lastGrade ? part.toMm : Math.min(part.toMm, grades[at]!.toMm)
        const { grade, gradePerMm } = gradeFrom(grades[at], fromMm)
        const interval = { element: part, fromMm, toMm, railFromMm: rail.value, grade, gradePerMm }
        intervals.push(interval)
        const lengthMm = laidLength(interval, offsetLeftMm, toMm)
        own.add(lengthMm)
        rail.add(lengthMm)
        fromMm = toMm
      }
    }
    elements.push({ fromMm: start, toMm: rail.value, lengthMm: own.value })
  }
  return { offsetLeftMm, lengthMm: rail.value, elements, intervals }
}

/** The grade at a station of a stretch, and its change per mm. */
function gradeFrom(stretch: GradeStretch | undefined, fromMm: number): { grade: number; gradePerMm: number } {
  if (stretch?.endGrade === undefined) return { grade: stretch?.grade ?? 0, gradePerMm: 0 }
  const gradePerMm = (stretch.endGrade - stretch.grade) / (stretch.toMm - stretch.fromMm)
  return { grade: gradeWithin(stretch, fromMm), gradePerMm }
}

/** The distance along a laid rail at a station on the centre line, kept between the rail's ends. O(log n). */
export function railDistanceAt(rail: RailLine, stationMm: number): number {
  const interval = rail.intervals[lastNotAfter(rail.intervals, 'fromMm', stationMm)]
  if (!interval) return 0
  if (stationMm >= interval.toMm && interval === rail.intervals.at(-1)) return rail.lengthMm
  if (stationMm <= interval.fromMm) return interval.railFromMm
  return interval.railFromMm + laidLength(interval, rail.offsetLeftMm, stationMm)
}

/**
 * The station on the centre line at a distance along a laid rail; the inverse of `railDistanceAt`. O(log n).
 *
 * On one stretch the plan length is B·s + A·s², with B = 1 − o·κ and A = −o·c/2, κ the curvature where the stretch begins
 * and c its rate of change. On the level that is d, and the root s = 2d/(B + √(B² + 4·A·d)) is stable down to A = 0 (arc,
 * tangent). On a grade s·√((B + A·s)² + g²) = d: s = d/√(B² + g²) where A = 0, else by Newton's method from there. So also
 * on a vertical curve (curved-length.ts).
 */
export function stationAtRailDistance(rail: RailLine, distanceMm: number): number {
  const interval = rail.intervals[lastNotAfter(rail.intervals, 'railFromMm', distanceMm)]
  if (!interval) return 0
  const { element, fromMm, toMm, railFromMm, grade, gradePerMm } = interval
  const alongMm = Math.max(0, distanceMm - railFromMm)
  const { perMm: b, perMm2 } = parallelTo(element, rail.offsetLeftMm, fromMm)
  const a = perMm2 / 2
  const longestMm = toMm - fromMm
  const along =
    gradePerMm !== 0
      ? alongAtLengthMm({ perMm: b, perMm2, grade, gradePerMm }, alongMm, longestMm)
      : grade === 0
        ? levelRoot(a, b, alongMm)
        : gradedRoot({ a, b, grade, alongMm, longestMm })
  return Math.min(fromMm + along, toMm)
}

function levelRoot(a: number, b: number, alongMm: number): number {
  return (2 * alongMm) / (b + Math.sqrt(Math.max(0, b * b + 4 * a * alongMm)))
}

/** More are never needed: the first guess is within g² of the root. */
const MOST_STEPS = 20

function gradedRoot({
  a,
  b,
  grade,
  alongMm,
  longestMm,
}: Record<'a' | 'b' | 'grade' | 'alongMm' | 'longestMm', number>) {
  if (a === 0) return alongMm / Math.hypot(b, grade)
  let s = Math.min(levelRoot(a, b, (alongMm * b) / Math.hypot(b, grade)), longestMm)
  for (let step = 0; step < MOST_STEPS; step++) {
    const meanMm = b + a * s
    const slant = Math.hypot(meanMm, grade)
    const move = (alongMm - s * slant) / (slant + (s * a * meanMm) / slant)
    s = Math.min(Math.max(s + move, 0), longestMm)
    if (Math.abs(move) <= 1e-14 * longestMm) break
  }
  return s
}

/** Index of the last interval whose `key` is ≤ value; 0 when there is none. */
function lastNotAfter(intervals: readonly Interval[], key: 'fromMm' | 'railFromMm', value: number): number {
  return Math.max(0, firstIndexWhere(intervals.length, (index) => intervals[index]![key] > value) - 1)
}
