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
    sets.sort((a, b) => a.lengthMm - b.lengthMm)
    this.wholeBeyondMm = longestStickMm
    this.count = sets.length
    this.lengthsMm = Float64Array.from(sets, ({ lengthMm }) => lengthMm)
    this.sticks = sets.map(({ sticks }) => sticks)
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

/** Null where there are too many. */
function setsUpTo(
  lengths: CutProblem['lengths'],
  upToMm: number,
): { lengthMm: number; sticks: readonly number[] }[] | null {
  const most = Math.min(MOST_SETS, MOST_NUMBERS / lengths.length)
  let sets: { lengthMm: number; sticks: readonly number[] }[] = [{ lengthMm: 0, sticks: lengths.map(() => 0) }]
  for (const [t, { lengthMm: stickMm, limit }] of lengths.entries()) {
    const next: typeof sets = []
    for (const { lengthMm, sticks } of sets)
      for (let n = 0; n <= limit && lengthMm + n * stickMm <= upToMm + LENGTH_SLACK_MM; n++) {
        if (next.length > most) return null
        next.push({
          lengthMm: lengthMm + n * stickMm,
          sticks: sticks.map((had, at) => (at === t ? n : had)),
        })
      }
    sets = next
  }
  return sets.filter(({ lengthMm }) => lengthMm > 0)
}
