import {
  type CurveShape,
  type FittedCurve,
  fittedCurve,
  ordinatesOf,
  sizeOf,
  startAt,
  type Values,
} from './fitted-curve.ts'
import { levelSteps } from './level-steps.ts'

/** Readings that must be left over when everything has been fitted. */
const LEFT_OVER = 3
const MOST_STEPS = 8
/** A step must make up for this many times ln(readings). */
export const STEP_COST = 4
/** No reading counts for more than this many times the unevenness when curves are compared. */
const CUT_OFF = 4
/** Changes of curvature of these lengths, in stations, are begun with. */
export const LENGTHS = [1, 4]
/** As many more changes than the best curve has are tried. */
const MORE_STEPS = 2
const WEIGHTED_PASSES = 6
const ROBUST_PASSES = 3
/** A reading this many times the unevenness from the curve counts half. */
const CAUCHY = 2.4

export interface Readings {
  readonly values: readonly number[]
  readonly weights: readonly number[]
  readonly read: number
  readonly straightBefore: boolean
  readonly straightAfter: boolean
  /** The unevenness that errors of reading of up to the resolution amount to, at least. */
  readonly leastUneven: number
}

export function surveyOf(
  readingsMm: readonly (number | null)[],
  beyond: { readonly straightBefore: boolean; readonly straightAfter: boolean },
  resolutionMm: number,
): Readings {
  return {
    ...beyond,
    // What was not read has no weight; any value stands for it where a curve is begun with.
    values: readingsMm.map(
      (reading, n) => reading ?? readingsMm.slice(0, n).findLast((before) => before !== null) ?? 0,
    ),
    weights: readingsMm.map((reading) => (reading === null ? 0 : 1)),
    read: readingsMm.filter((reading) => reading !== null).length,
    leastUneven: resolutionMm / Math.sqrt(3),
  }
}

/** The curve with the fewest changes that the readings need; single readings that do not fit it have little weight. */
export function robustCurve(survey: Readings): FittedCurve | null {
  const { values, weights, read, straightBefore, straightAfter } = survey
  const cleaned = values.map((value, n) => median([values[n - 1] ?? value, value, values[n + 1] ?? value]))
  const known = { first: straightBefore ? 0 : null, last: straightAfter ? 0 : null }
  const curves: FittedCurve[] = []
  let uneven = Number.POSITIVE_INFINITY
  const cost = ({ shape, rest }: FittedCurve) =>
    rest.reduce(
      (sum, left, n) => (weights[n]! > 0 ? sum + Math.min((left / uneven) ** 2, CUT_OFF ** 2) : sum),
      STEP_COST * Math.log(read) * shape.steps,
    )
  const cheapest = () => curves.reduce((best, curve) => (cost(curve) < cost(best) ? curve : best))
  for (const changes of levelSteps(cleaned, known, MOST_STEPS)) {
    const shape: CurveShape = {
      stations: values.length,
      steps: changes.length,
      isStraightBefore: straightBefore,
      isStraightAfter: straightAfter,
      isRounded: true,
      wrong: [],
    }
    if (read - sizeOf(shape) < LEFT_OVER) break
    // A curve between straights begins and ends.
    if (changes.length === 1 && straightBefore && straightAfter) continue
    for (const length of changes.length > 0 ? LENGTHS : [1])
      curves.push(robustly(survey, shape, startAt(shape, changes, cleaned, length)))
    uneven = Math.min(uneven, ...curves.map((curve) => unevenRobustly(survey, curve)))
    if (changes.length > cheapest().shape.steps + MORE_STEPS) break
  }
  if (curves.length === 0) return null
  const best = cheapest()
  const cornered = robustly(survey, { ...best.shape, isRounded: false }, best.values)
  return cost(cornered) < cost(best) ? cornered : best
}

export function plain(
  { values, weights }: Readings,
  shape: CurveShape,
  start: Values,
  mostPasses?: number,
): FittedCurve {
  return fittedCurve(shape, start, values, weights, mostPasses)
}

/** Readings far from the curve count less and less (Cauchy's weights). */
export function robustly(survey: Readings, shape: CurveShape, start: Values): FittedCurve {
  const { values, weights } = survey
  let curve: FittedCurve = {
    shape,
    values: start,
    rest: ordinatesOf(shape, start).map((ordinate, n) => values[n]! - ordinate),
  }
  for (let pass = 0; pass < ROBUST_PASSES; pass++) {
    const uneven = unevenRobustly(survey, curve)
    const counted = weights.map((weight, n) => weight / (1 + (curve.rest[n]! / (CAUCHY * uneven)) ** 2))
    curve = fittedCurve(shape, curve.values, values, counted, WEIGHTED_PASSES)
  }
  return curve
}

/** The standard deviation about a curve, from the median, which some far readings do not change. */
export function unevenRobustly({ weights, read, leastUneven }: Readings, { shape, rest }: FittedCurve): number {
  const sizes = rest.flatMap((left, n) => (weights[n]! > 0 ? [Math.abs(left)] : []))
  return Math.max(leastUneven, 1.4826 * median(sizes) * Math.sqrt(read / Math.max(1, read - sizeOf(shape))))
}

export function sumOfSquares({ weights }: Readings, { rest }: FittedCurve): number {
  return rest.reduce((sum, left, n) => (weights[n]! > 0 ? sum + left * left : sum), 0)
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}
