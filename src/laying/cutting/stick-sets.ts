import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { CutProblem } from './problem.ts'

/** If there are more sets, the longest are left out. */
const MOST_SETS = 12_000

/** Every set of sticks that one chain may use, in order of length. */
export class StickSets {
  readonly count: number
  readonly lengthsMm: Float64Array
  /** How many of each length, set after set. */
  readonly sticks: readonly (readonly number[])[]
  /** The list is complete for chains that need and waste no more than this. */
  readonly wholeUpToMm: number
  readonly wholeBeyondMm: number
  /** The first set of at least each multiple of `stepMm`. */
  private readonly table: Int32Array
  private readonly stepMm: number

  constructor({ runs, lengths, kerfMm }: Pick<CutProblem, 'runs' | 'lengths' | 'kerfMm'>) {
    const longestStickMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
    const allMm = runs.reduce((sum, { lengthMm }) => sum + lengthMm + kerfMm, -kerfMm)
    let upToMm = allMm + longestStickMm
    let sets = setsUpTo(lengths, upToMm)
    while (!sets) {
      upToMm /= 2
      sets = setsUpTo(lengths, upToMm)
    }
    this.wholeBeyondMm = longestStickMm
    this.count = sets.lengthsMm.length
    this.lengthsMm = Float64Array.from(sets.lengthsMm)
    this.sticks = sets.sticks
    this.wholeUpToMm = upToMm >= allMm + longestStickMm ? Number.POSITIVE_INFINITY : upToMm - longestStickMm
    this.stepMm = Math.max(upToMm / (2 * this.count + 1), 1e-3)
    this.table = new Int32Array(Math.ceil(upToMm / this.stepMm) + 2)
    for (let step = 0, set = 0; step < this.table.length; step++) {
      while (set < this.count && this.lengthsMm[set]! < step * this.stepMm - LENGTH_SLACK_MM) set++
      this.table[step] = set
    }
  }

  /** The shortest set of at least this length; `count` when there is none. */
  firstOf(mm: number): number {
    const step = Math.floor(mm / this.stepMm)
    if (step >= this.table.length) return this.count
    let set = this.table[step]!
    while (set < this.count && this.lengthsMm[set]! < mm - LENGTH_SLACK_MM) set++
    return set
  }
}

interface SetsInOrder {
  readonly lengthsMm: number[]
  readonly sticks: (readonly number[])[]
}

/** In order of length, without the empty set. Null where there are too many. */
function setsUpTo(lengths: CutProblem['lengths'], upToMm: number): SetsInOrder | null {
  let sets: SetsInOrder = { lengthsMm: [0], sticks: [lengths.map(() => 0)] }
  for (const [t, { lengthMm, limit }] of lengths.entries()) {
    const more = withSticks(sets, t, lengthMm, limit, upToMm)
    if (!more) return null
    sets = more
  }
  return { lengthsMm: sets.lengthsMm.slice(1), sticks: sets.sticks.slice(1) }
}

/**
 * Sets without a length of stick, and each of them with any number of it: of two lists in order, the first and what is
 * one stick longer than what was listed already, the shorter comes next.
 */
function withSticks(
  { lengthsMm, sticks }: SetsInOrder,
  t: number,
  stickMm: number,
  limit: number,
  upToMm: number,
): SetsInOrder | null {
  const all: SetsInOrder = { lengthsMm: [], sticks: [] }
  /** The length that each listed set has without this stick, so that a length is not a sum of many roundings. */
  const withoutMm: number[] = []
  let longer = 0
  for (let had = 0; ; ) {
    while (longer < all.sticks.length && all.sticks[longer]![t]! >= limit) longer++
    const hadMm = had < lengthsMm.length ? lengthsMm[had]! : Number.POSITIVE_INFINITY
    const longerMm =
      longer < all.sticks.length
        ? withoutMm[longer]! + (all.sticks[longer]![t]! + 1) * stickMm
        : Number.POSITIVE_INFINITY
    if (Math.min(hadMm, longerMm) > upToMm + LENGTH_SLACK_MM) return all
    if (all.sticks.length > MOST_SETS) return null
    if (longerMm <= hadMm) {
      const counts = all.sticks[longer]!.slice()
      counts[t]!++
      all.lengthsMm.push(longerMm)
      all.sticks.push(counts)
      withoutMm.push(withoutMm[longer]!)
      longer++
    } else {
      all.lengthsMm.push(hadMm)
      all.sticks.push(sticks[had]!)
      withoutMm.push(hadMm)
      had++
    }
  }
}
