import { leastSquares } from './least-squares.ts'

/** One thing wrong at a station, and by how much: its reading, or its place. */
export interface Wrong {
  readonly kind: 'reading' | 'place'
  readonly station: number
}

/**
 * A curve to be fitted to readings: level stretches with even changes of curvature between them, and what is wrong at
 * some stations.
 */
export interface CurveShape {
  readonly stations: number
  /** How many times the level changes. */
  readonly steps: number
  readonly isStraightBefore: boolean
  readonly isStraightAfter: boolean
  /** Whether the string rounds the corners, as on track; otherwise the ordinates change evenly themselves. */
  readonly isRounded: boolean
  readonly wrong: readonly Wrong[]
}

/** Middle and length of each change, in stations; the free levels; the sizes of what is wrong. One number each. */
export type Values = readonly number[]

export interface FittedCurve {
  readonly shape: CurveShape
  readonly values: Values
  /** What is left of each reading; NaN where there is none. */
  readonly rest: readonly number[]
}

/** No change of curvature is shorter, in stations. */
const SHORTEST = 0.02
/** The middles of two changes are at least this far apart, in stations. */
const APART = 2
const MOST_PASSES = 20

export function fittedCurve(
  shape: CurveShape,
  start: Values,
  readings: readonly number[],
  weights: readonly number[],
  mostPasses = MOST_PASSES,
): FittedCurve {
  const rest = (values: Values) => {
    const left = ordinatesOf(shape, values)
    for (let n = 0; n < left.length; n++) left[n] = readings[n]! - left[n]!
    return left
  }
  const values = leastSquares((v) => (isPossible(shape, v) ? rest(v) : null), start, weights, mostPasses)
  return { shape, values, rest: rest(values) }
}

/** How many numbers describe a curve of this shape. */
export function sizeOf({ steps, isStraightBefore, isStraightAfter, wrong }: CurveShape): number {
  return 3 * steps + 1 - (isStraightBefore ? 1 : 0) - (isStraightAfter && steps > 0 ? 1 : 0) + wrong.length
}

/** Values to begin with: where the level changes, and changes of a given length. */
export function startAt(shape: CurveShape, changes: readonly number[], readings: readonly number[], length: number) {
  const { steps, stations, isStraightBefore, isStraightAfter } = shape
  const middles = changes.map((from) => from - 0.5)
  for (let n = 1; n < middles.length; n++) middles[n] = Math.max(middles[n]!, middles[n - 1]! + APART)
  const levels = [0, ...changes].map((from, n) => mean(readings.slice(from, changes[n] ?? stations)))
  const free = levels.filter((_, n) => !(n === 0 && isStraightBefore) && !(n > 0 && n === steps && isStraightAfter))
  const lengths = middles.map((middle, n) => {
    const room = Math.min(middle - (middles[n - 1] ?? -length), (middles[n + 1] ?? middle + length) - middle)
    return Math.max(SHORTEST, Math.min(length, room))
  })
  return [...middles, ...lengths, ...free]
}

/**
 * The ordinates at the stations. Where the curvature begins to change, at x = 0, the string half a chord to either side
 * shows not the change x itself but its mean weighted by the distance from the string's ends: (1 + x)³/6 for x from −1
 * to 0, x + (1 − x)³/6 from 0 to 1. Derived (the middle ordinate is ∫ curvature × that weight);
 * tests/bending/bend-check/fitted-curve.test.ts.
 */
export function ordinatesOf(shape: CurveShape, values: Values): number[] {
  const { stations, steps, isStraightBefore, isStraightAfter, isRounded, wrong } = shape
  const begun = isRounded ? roundedBegin : (x: number) => Math.max(0, x)
  let next = 2 * steps
  const before = isStraightBefore ? 0 : values[next++]!
  const ordinates = new Array<number>(stations).fill(before)
  let level = before
  for (let step = 0; step < steps; step++) {
    const to = step === steps - 1 && isStraightAfter ? 0 : values[next++]!
    const [middle, length] = [values[step]!, values[steps + step]!]
    // Before the change, with what the string shows of it, there is nothing to add, and after it all of it.
    const first = Math.max(0, Math.ceil(middle - length / 2 - 1))
    const end = Math.max(first, Math.min(stations, Math.floor(middle + length / 2 + 1) + 1))
    for (let n = first; n < end; n++) {
      const x = n - middle
      ordinates[n]! += ((to - level) * (begun(x + length / 2) - begun(x - length / 2))) / length
    }
    for (let n = end; n < stations; n++) ordinates[n]! += to - level
    level = to
  }
  for (const { kind, station } of wrong) {
    const size = values[next++]!
    ordinates[station]! += size
    if (kind === 'reading') continue
    // A station out of its place is seen by its neighbours too.
    if (station > 0) ordinates[station - 1]! -= size / 2
    if (station < stations - 1) ordinates[station + 1]! -= size / 2
  }
  return ordinates
}

function roundedBegin(x: number): number {
  if (x <= -1) return 0
  if (x >= 1) return x
  return x < 0 ? (1 + x) ** 3 / 6 : x + (1 - x) ** 3 / 6
}

function isPossible({ steps, stations }: CurveShape, values: Values): boolean {
  for (let step = 0; step < steps; step++) {
    const [middle, length] = [values[step]!, values[steps + step]!]
    if (length < SHORTEST || length > stations || middle < -1 || middle > stations) return false
    if (step === 0) continue
    const [middleBefore, lengthBefore] = [values[step - 1]!, values[steps + step - 1]!]
    if (middle - middleBefore < APART || middle - length / 2 < middleBefore + lengthBefore / 2) return false
  }
  return true
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
