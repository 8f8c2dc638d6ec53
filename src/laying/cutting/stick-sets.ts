import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { CutProblem } from './problem.ts'

/** If there are more sets, the longest are left out. */
const MOST_SETS = 12_000
/** Each set has a number for every length: with many lengths there are fewer sets. */
const MOST_NUMBERS = 20 * MOST_SETS

/** Every set of sticks that one chain may use, in order of length. */
export class StickSets {
  readonly count: number
  readonly lengthsMm: Float64Array
  /** The list is complete for chains that need and waste no more than this. */
  readonly wholeUpToMm: number
  readonly wholeBeyondMm: number
  /** How many lengths of stick there are. */
  readonly kinds: number
  /** How many of each length, set after set. */
  readonly counts: Int32Array
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
    this.kinds = lengths.length
    this.count = sets.lengthsMm.length
    this.lengthsMm = Float64Array.from(sets.lengthsMm)
    this.counts = Int32Array.from(sets.counts)
    this.wholeUpToMm = upToMm >= allMm + longestStickMm ? Number.POSITIVE_INFINITY : upToMm - longestStickMm
    this.stepMm = Math.max(upToMm / (2 * this.count + 1), 1e-3)
    this.table = new Int32Array(Math.ceil(upToMm / this.stepMm) + 2)
    for (let step = 0, set = 0; step < this.table.length; step++) {
      while (set < this.count && this.lengthsMm[set]! < step * this.stepMm - LENGTH_SLACK_MM) set++
      this.table[step] = set
    }
  }

  /** How many sticks of each length a set has. */
  sticks(set: number): number[] {
    return Array.from(this.counts.subarray(set * this.kinds, (set + 1) * this.kinds))
  }

  /** Whether a set takes no more sticks of any length than these. */
  isWithin(set: number, counts: readonly number[]): boolean {
    for (let t = 0; t < this.kinds; t++) if (this.counts[set * this.kinds + t]! > counts[t]!) return false
    return true
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
  /** How many of each length so far, set after set. */
  readonly counts: number[]
}

/** In order of length, without the empty set. Null where there are too many. */
function setsUpTo(lengths: CutProblem['lengths'], upToMm: number): SetsInOrder | null {
  const most = Math.min(MOST_SETS, MOST_NUMBERS / lengths.length)
  let sets: SetsInOrder = { lengthsMm: [0], counts: [] }
  for (const [t, { lengthMm, limit }] of lengths.entries()) {
    const more = withSticks(sets, t, lengthMm, limit, upToMm, most)
    if (!more) return null
    sets = more
  }
  return { lengthsMm: sets.lengthsMm.slice(1), counts: sets.counts.slice(lengths.length) }
}

/**
 * Sets of the first `t` lengths of stick, and each of them with any number of the next: of two lists in order, the first
 * and what is one stick longer than what was listed already, the shorter comes next.
 */
function withSticks(
  had: SetsInOrder,
  t: number,
  stickMm: number,
  limit: number,
  upToMm: number,
  most: number,
): SetsInOrder | null {
  const all: SetsInOrder = { lengthsMm: [], counts: [] }
  const kinds = t + 1
  /** Which of the sets without this stick each listed one is, so that a length is not a sum of many roundings. */
  const without: number[] = []
  const listed = () => without.length
  const countOf = (set: number) => all.counts[set * kinds + t]!
  let longer = 0
  for (let next = 0; ; ) {
    while (longer < listed() && countOf(longer) >= limit) longer++
    const nextMm = next < had.lengthsMm.length ? had.lengthsMm[next]! : Number.POSITIVE_INFINITY
    const longerMm =
      longer < listed() ? had.lengthsMm[without[longer]!]! + (countOf(longer) + 1) * stickMm : Number.POSITIVE_INFINITY
    if (Math.min(nextMm, longerMm) > upToMm + LENGTH_SLACK_MM) return all
    if (listed() > most) return null
    const isLonger = longerMm <= nextMm
    const base = isLonger ? without[longer]! : next
    for (let kind = 0; kind < t; kind++) all.counts.push(had.counts[base * t + kind]!)
    all.counts.push(isLonger ? countOf(longer) + 1 : 0)
    all.lengthsMm.push(isLonger ? longerMm : nextMm)
    without.push(base)
    if (isLonger) longer++
    else next++
  }
}
