import { sum } from '../measure/sum.ts'
import { type Hill, type HillTrack, hillOf, reversedHill } from './hill.ts'
import { type Block, mostPullN, type Pull, pullExtremes } from './pull.ts'
import { GRAVITY_M_S2 } from './resistance.ts'

/** Cars of one kind in a train. */
export interface CarsBehind {
  readonly count: number
  /** One car: over its couplers. */
  readonly car: Block
}

/** An engine and what it pulls. */
export interface HauledTrain {
  readonly engine: Block
  readonly behind: readonly CarsBehind[]
  /** Pull at its wheels before they slip or the engine gives no more. */
  readonly tractiveEffortN: number
  /** Force with which its wheels can hold the train before they slide. */
  readonly holdingN: number
}

/** Of a pull: what is left of it in damp weather (US Army TR 0603, §2.10). */
export const WEATHER_SHARE = 0.8

/**
 * The pull of an engine: μ·m·g for the mass m on its driven wheels and the adhesion μ, or what it gives itself, if that is
 * less. Example: US Army TR 0603 §2.10 in tests/published/tr-0603-tonnage.test.ts.
 */
export function tractiveEffortN(massOnDriversKg: number, adhesion: number, engineN: number | null): number {
  return Math.min(adhesionN(massOnDriversKg, adhesion), engineN ?? Number.POSITIVE_INFINITY)
}

export function adhesionN(massOnDriversKg: number, adhesion: number): number {
  return adhesion * massOnDriversKg * GRAVITY_M_S2
}

/** More cars than this are not looked for. */
const MOST_CARS = 1000

export type Direction = 'forward' | 'backward'

/** A track in both directions, as a train may run over it. */
export interface Slope {
  readonly direction: Direction
  readonly hill: Hill
}

export function slopesOf(track: HillTrack): Slope[] {
  const hill = hillOf(track)
  return [
    { direction: 'forward', hill },
    { direction: 'backward', hill: reversedHill(hill) },
  ]
}

/** The hardest place of a train on some slopes, and where it pushes hardest downhill. */
export interface HaulOn<On> {
  readonly climbing: PullOn<On>
  readonly descending: PullOn<On>
}

export interface PullOn<On> extends Pull {
  readonly on: On
}

/** The blocks of a train, from the front, with `most` cars at most. */
export function blocksOf({ engine, behind }: HauledTrain, most = Number.POSITIVE_INFINITY): Block[] {
  const blocks = [engine]
  let left = most
  for (const [index, { count, car }] of behind.entries()) {
    const isLast = index === behind.length - 1
    // More cars than there are, are like the last.
    const taken = Math.min(left, isLast && Number.isFinite(most) ? left : count)
    if (taken > 0) blocks.push({ ...car, lengthMm: taken * car.lengthMm, weightN: taken * car.weightN })
    left -= taken
  }
  return blocks
}

/** A train of even weight, without rolling resistance: what it asks for is the grade under it, and what its curves ask for. */
export function evenTrain(lengthMm: number, curveMm: number): Block {
  return { lengthMm, weightN: 1, rolling: 0, curveMm }
}

export function haulOn<On extends { readonly hill: Hill }>(slopes: readonly On[], train: readonly Block[]): HaulOn<On> {
  const each = slopes.map((on) => {
    const { most, least } = pullExtremes(on.hill, train)
    return { climbing: { ...most, on }, descending: { ...least, on } }
  })
  return {
    climbing: each.map(({ climbing }) => climbing).reduce((a, b) => (b.pullN > a.pullN ? b : a)),
    descending: each.map(({ descending }) => descending).reduce((a, b) => (b.pullN < a.pullN ? b : a)),
  }
}

/** The slopes that a train of a length runs over: the longer it is, the more tracks it may stand on. */
export type SlopesFor<On> = (trainMm: number) => readonly On[]

export function lengthOf(train: readonly Block[]): number {
  return sum(train.map(({ lengthMm }) => lengthMm))
}

/**
 * How many of its cars an engine takes over the tracks with a pull: so many go, and one more does not. Beyond its own it
 * counts on with cars like the last. The search begins with as many as would go if all of the train were on the steepest
 * grade and the sharpest curve, and takes ever longer steps; a longer train asks for more but where it hangs over a summit.
 * Null without a car to count; 0 also where not even the engine alone gets over them.
 */
export function carsTaken(
  slopesFor: SlopesFor<{ readonly hill: Hill }>,
  train: HauledTrain,
  pullN: number,
): number | null {
  if (train.behind.length === 0) return null
  const limitN = pullN * (1 + PULL_SLACK)
  const surelyGoes = (cars: number) => {
    const blocks = blocksOf(train, cars)
    return slopesFor(lengthOf(blocks)).every(({ hill }) => mostPullN(hill, blocks) <= limitN)
  }
  const goes = (cars: number) => {
    const blocks = blocksOf(train, cars)
    return slopesFor(lengthOf(blocks)).every(({ hill }) => pullExtremes(hill, blocks).most.pullN <= limitN)
  }
  const sure = lastThatHolds(0, surelyGoes)
  if (sure === null && !goes(0)) return 0
  return lastThatHolds(sure ?? 0, (cars) => cars === (sure ?? 0) || goes(cars))!
}

/** A count from `first` on that holds while the next does not, found by doubling and halving; null if `first` does not. */
function lastThatHolds(first: number, holds: (count: number) => boolean): number | null {
  if (!holds(first)) return null
  let [last, step] = [first, 1]
  while (last < MOST_CARS && holds(Math.min(last + step, MOST_CARS))) {
    last = Math.min(last + step, MOST_CARS)
    step *= 2
  }
  if (last === MOST_CARS) return last
  let beyond = Math.min(last + step, MOST_CARS)
  while (beyond - last > 1) {
    const middle = (last + beyond) >> 1
    if (holds(middle)) last = middle
    else beyond = middle
  }
  return last
}

/** A pull that exceeds the limit by no more is a rounding error. */
export const PULL_SLACK = 1e-9
