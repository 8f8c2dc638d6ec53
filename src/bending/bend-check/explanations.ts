import { type CurveShape, type FittedCurve, ordinatesOf, sizeOf, type Values, type Wrong } from './fitted-curve.ts'
import {
  LENGTHS,
  plain,
  type Readings,
  robustCurve,
  robustly,
  STEP_COST,
  sumOfSquares,
  unevenRobustly,
} from './robust-curve.ts'

/** A wrong reading or a displaced station must make the readings likelier by this much (2·ln of the likelihoods' ratio), … */
const LIKELIER = 25
/** … and a wrong reading by this much more than a displaced station would, … */
const LIKELIER_THAN_PLACE = 6
/** … and by this much more than another wrong reading. */
const LIKELIER_THAN_READING = 2
/** Farther apart than this, one thing wrong does not explain another. */
const APART = 3
/** How many candidates of each kind are fitted at a time. */
const CANDIDATES = 5
/** The stations of as many are looked at closely, with their neighbours. */
const CLOSELY = 2
/** Changes within so many stations are begun with in other places as well, this far away. */
const NEAR = 4
const SHIFTS = [-1, 0, 1]
/** Of the fits begun with, after these passes, so many are finished. */
const FIRST_PASSES = 3
const STARTS = 2

export interface Explained {
  readonly curve: FittedCurve
  /** Whether nothing else explains the readings nearly as well. */
  readonly isClear: boolean
}

/**
 * The curve with one more thing wrong that makes the readings likeliest; null when nothing makes them clearly likelier.
 */
export function explainedBest(survey: Readings, known: FittedCurve): Explained | null {
  const { shape } = known
  const robust = robustly(survey, shape, known.values)
  const right = plain(survey, shape, robust.values)
  const uneven = unevenRobustly(survey, robust)
  const isNew = ({ kind, station }: Wrong) =>
    survey.weights[station]! > 0 && !shape.wrong.some((wrong) => wrong.kind === kind && wrong.station === station)
  const quick = farthest(robust, survey.weights)
    .filter(isNew)
    .map((wrong) => ({ wrong, sum: sumOfSquares(survey, withOneMore(survey, robust, wrong)) }))
    .sort((a, b) => a.sum - b.sum)
  if (quick.length === 0 || sumOfSquares(survey, right) - quick[0]!.sum < LIKELIER * uneven ** 2) return null

  // A wrong reading also changes which curve seemed to fit: for each explanation it is looked for without it.
  const stations = [
    ...new Set(quick.slice(0, CLOSELY).flatMap(({ wrong: { station } }) => [station - 1, station, station + 1])),
  ]
  const explanations = stations
    .flatMap((station): Wrong[] => [
      { kind: 'reading', station },
      { kind: 'place', station },
    ])
    .filter(isNew)
    .map((wrong) => ({ wrong, ...bestWith(survey, robust, wrong, uneven) }))
  const least = explanations.reduce((best, one) => (one.cost < best.cost ? one : best))
  const variance = unevenRobustly(survey, least.curve) ** 2
  if (sumOfSquares(survey, right) - sumOfSquares(survey, least.curve) < LIKELIER * variance) return null
  const scale = uneven ** 2 / variance
  const isClear = explanations.every(({ wrong, curve, cost }) => {
    const than = wrong.kind === 'place' ? LIKELIER_THAN_PLACE : LIKELIER_THAN_READING
    const isElsewhere = Math.abs(wrong.station - least.wrong.station) > APART
    return curve === least.curve || isElsewhere || (cost - least.cost) * scale >= than
  })
  return { curve: least.curve, isClear }
}

/** What may be wrong, by how far readings or stations seem to be from the curve. */
function farthest({ rest }: FittedCurve, weights: readonly number[]): (Wrong & { size: number })[] {
  const at = (n: number) => (weights[n] ? rest[n]! : 0)
  return (['reading', 'place'] as const).flatMap((kind) =>
    rest
      .map((_, station) => {
        return { kind, station, size: sizeAt(at, kind, station) }
      })
      .sort((a, b) => Math.abs(b.size) - Math.abs(a.size))
      .slice(0, CANDIDATES),
  )
}

function withOneMore(survey: Readings, { shape, values, rest }: FittedCurve, { kind, station }: Wrong): FittedCurve {
  return plain(survey, { ...shape, wrong: [...shape.wrong, { kind, station }] }, [...values, rest[station]!])
}

/**
 * The curve that fits best when one more thing is wrong: begun from the one there is, from the one without those
 * readings, and from the one of the readings put right as these fits say.
 */
function bestWith(survey: Readings, robust: FittedCurve, wrong: Wrong, uneven: number) {
  const { steps } = robust.shape
  const all = [...robust.shape.wrong, wrong]
  const costOf = (curve: FittedCurve) =>
    sumOfSquares(survey, curve) / uneven ** 2 + STEP_COST * Math.log(survey.read) * curve.shape.steps
  const begunFrom = ({ shape, values }: FittedCurve) => {
    const own = values.slice(0, sizeOf({ ...shape, wrong: [] }))
    return startsAbout(shape.steps, own, wrong.station)
      .map((start) => withSizes(survey, { ...shape, wrong: all }, start))
      .sort((a, b) => sumOfSquares(survey, a) - sumOfSquares(survey, b))
      .slice(0, STARTS)
      .map((begun) => {
        const curve = plain(survey, begun.shape, begun.values)
        return { curve, cost: costOf(curve) }
      })
  }
  const fits = begunFrom(robust)
  const best = () => fits.reduce((least, one) => (one.cost < least.cost ? one : least))

  const isTouched = (n: number) => all.some(({ kind, station }) => Math.abs(n - station) <= (kind === 'place' ? 1 : 0))
  const weights = survey.weights.map((weight, n) => (isTouched(n) ? 0 : weight))
  const values = survey.values.map((value, n) => (isTouched(n) ? between(survey.values, n, isTouched) : value))
  const read = weights.reduce((sum, weight) => sum + weight, 0)
  const without = robustCurve({ ...survey, values, weights, read })
  if (without) fits.push(...begunFrom(without))

  if (wrong.kind === 'place') {
    const putRight = robustCurve({ ...survey, values: corrected(survey, best().curve) })
    if (putRight && putRight.shape.steps !== steps) fits.push(...begunFrom(putRight))
  }
  return best()
}

/** The readings without what is wrong with them. */
function corrected({ values }: Readings, { shape, values: fitted }: FittedCurve): number[] {
  const own = fitted.slice(0, sizeOf({ ...shape, wrong: [] }))
  const even = ordinatesOf({ ...shape, wrong: [] }, own)
  return ordinatesOf(shape, fitted).map((ordinate, n) => values[n]! - (ordinate - even[n]!))
}

/** The values, and the same with the change nearest to a station moved and of other lengths. */
function startsAbout(steps: number, values: Values, station: number): Values[] {
  let nearest = 0
  for (let step = 1; step < steps; step++)
    if (Math.abs(values[step]! - station) < Math.abs(values[nearest]! - station)) nearest = step
  if (steps === 0 || Math.abs(values[nearest]! - station) > NEAR) return [values]
  return [
    values,
    ...LENGTHS.flatMap((length) =>
      SHIFTS.map((by) => values.with(nearest, values[nearest]! + by).with(steps + nearest, length)),
    ),
  ]
}

/** The curve fitted from values without what is wrong, whose sizes are begun with as that curve shows them. */
function withSizes(survey: Readings, shape: CurveShape, own: Values): FittedCurve {
  const ordinates = ordinatesOf({ ...shape, wrong: [] }, own)
  const rest = (n: number) => (survey.weights[n] ? survey.values[n]! - ordinates[n]! : 0)
  const sizes = shape.wrong.map(({ kind, station }) => sizeAt(rest, kind, station))
  return plain(survey, shape, [...own, ...sizes], FIRST_PASSES)
}

/** How far a reading is wrong or a station out of place (least squares of its own and its neighbours' readings). */
function sizeAt(rest: (station: number) => number, kind: Wrong['kind'], station: number): number {
  if (kind === 'reading') return rest(station)
  return (rest(station) - (rest(station - 1) + rest(station + 1)) / 2) / 1.5
}

/** On the line between the nearest values to either side that are not touched. */
function between(values: readonly number[], n: number, isTouched: (n: number) => boolean): number {
  let [before, after] = [n - 1, n + 1]
  while (before >= 0 && isTouched(before)) before--
  while (after < values.length && isTouched(after)) after++
  const [low, high] = [values[before] ?? values[after] ?? 0, values[after] ?? values[before] ?? 0]
  return low + ((high - low) * (n - before)) / (after - before)
}
