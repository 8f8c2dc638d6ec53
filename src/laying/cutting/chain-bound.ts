import { LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import type { CutProblem } from './problem.ts'
import type { WasteCut } from './waste-cut.ts'

/**
 * The most chains that sticks can be divided into. For any unit length u, by ⌈a + b⌉ ≤ ⌈a⌉ + ⌈b⌉ and
 * Σ(⌈Lᵢ/u⌉ − 1) ≤ ⌈ΣLᵢ/u⌉ − 1, a chain of runs Lᵢ over sticks Sₜ has
 *
 *   Σ(⌈Lᵢ/u⌉ − 1) + 1 ≤ Σ⌈Sₜ/u⌉,
 *
 * so that chains ≤ Σ over sticks ⌈Sₜ/u⌉ − Σ over runs (⌈Lᵢ/u⌉ − 1): with u the longest stick the well-known least number
 * of joints, with u a part of a stick what does not fit side by side (a dual feasible function; Lueker, *Bin packing with
 * items uniformly distributed over intervals*, 1983). Derived; tests/laying/cutting/chain-bound.test.ts tries it against
 * every division of small problems.
 */
export class ChainBound {
  /** The units that are tried, mm. */
  private readonly unitsMm: readonly number[]
  /** For each unit, what a stick of each length counts. */
  readonly perStick: readonly Float64Array[]
  /** For each unit, ⌈L/u⌉ − 1 of each run, and what is left of L/u beyond that: in (0, 1]. */
  readonly wholes: readonly Float64Array[]
  readonly fractions: readonly Float64Array[]
  private readonly allWholes: readonly number[]
  private readonly runCount: number
  private readonly problem: Pick<CutProblem, 'runs' | 'lengths' | 'kerfMm'>
  private readonly runsMm: number
  private readonly cuts: WasteCut[] = []

  constructor(problem: Pick<CutProblem, 'runs' | 'lengths' | 'kerfMm'>) {
    this.problem = problem
    const runsMm = problem.runs.map(({ lengthMm }) => lengthMm)
    const sticksMm = problem.lengths.map(({ lengthMm }) => lengthMm)
    this.runCount = runsMm.length
    this.runsMm = runsMm.reduce((sum, mm) => sum + mm, 0)
    this.unitsMm = unitsFor(sticksMm, runsMm)
    this.perStick = this.unitsMm.map((unit) => Float64Array.from(sticksMm, (mm) => piecesToCover(mm, unit)))
    this.wholes = this.unitsMm.map((unit) => Float64Array.from(runsMm, (mm) => piecesToCover(mm, unit) - 1))
    this.fractions = this.unitsMm.map((unit, n) =>
      Float64Array.from(runsMm, (mm, run) => mm / unit - this.wholes[n]![run]!),
    )
    this.allWholes = this.wholes.map((wholes) => wholes.reduce((sum, whole) => sum + whole, 0))
  }

  /** The most chains for so many sticks of each length; below 1 where they cannot hold the runs. */
  most(counts: readonly number[]): number {
    let most = Math.min(
      this.runCount,
      counts.reduce((sum, count) => sum + count, 0),
    )
    for (let n = 0; n < this.unitsMm.length; n++) most = Math.min(most, this.room(n, counts))
    while (most >= 1 && !this.allowed(counts, most)) most--
    return most
  }

  /** Takes in a bound by waste; it holds for whatever sticks are taken. */
  add(cut: WasteCut): void {
    this.cuts.push(cut)
  }

  /** What so many sticks waste, laid as so many chains; below 0 where they do not hold the runs. */
  wasteMm(counts: readonly number[], chains: number): number {
    const { lengths, kerfMm } = this.problem
    let sticksMm = 0
    for (let t = 0; t < counts.length; t++) sticksMm += counts[t]! * lengths[t]!.lengthMm
    return sticksMm - this.runsMm - kerfMm * (this.runCount - chains)
  }

  /** The bound by waste that leaves these chains the least; undefined while there is none. */
  tightestCut(counts: readonly number[], chains: number): WasteCut | undefined {
    const wasteMm = this.wasteMm(counts, chains)
    return this.cuts.reduce<WasteCut | undefined>(
      (best, cut) => (best && spareIn(best, wasteMm) <= spareIn(cut, wasteMm) ? best : cut),
      undefined,
    )
  }

  private allowed(counts: readonly number[], chains: number): boolean {
    const wasteMm = this.wasteMm(counts, chains)
    return wasteMm >= -LENGTH_SLACK_MM && this.cuts.every((cut) => spareIn(cut, wasteMm) >= chains - CUT_SLACK)
  }

  /** The same by one unit alone. */
  room(unit: number, counts: readonly number[]): number {
    let sum = -this.allWholes[unit]!
    const perStick = this.perStick[unit]!
    for (let t = 0; t < counts.length; t++) sum += counts[t]! * perStick[t]!
    return sum
  }

  /** The units that leave these sticks the least room, tightest first. */
  tightest(counts: readonly number[], most: number): number[] {
    const rooms = this.unitsMm.map((_, unit) => this.room(unit, counts))
    return this.unitsMm
      .map((_, unit) => unit)
      .sort((a, b) => rooms[a]! - rooms[b]! || this.unitsMm[b]! - this.unitsMm[a]!)
      .slice(0, most)
  }
}

/** Shares are summed and compared with whole chains. */
const CUT_SLACK = 1e-6

function spareIn(cut: WasteCut, wasteMm: number): number {
  return cut.shareSum + cut.perMm * wasteMm
}

/** Parts of a stick are tried down to this many to the stick, parts of a run and of a difference of sticks to fewer. */
const PARTS_OF_A_STICK = 40
const PARTS_OF_A_DIFFERENCE = 10
const PARTS_OF_A_RUN = 6
/** With very many runs or lengths the rest of the units are left out: the bound holds for whichever are tried. */
const MOST_UNITS = 400

function unitsFor(sticksMm: readonly number[], runsMm: readonly number[]): number[] {
  const parts = (mm: number, most: number) => Array.from({ length: most }, (_, n) => mm / (n + 1))
  const differences = sticksMm.flatMap((a, n) => sticksMm.slice(n + 1).map((b) => Math.abs(a - b)))
  return [
    ...new Set([
      ...sticksMm.flatMap((mm) => parts(mm, PARTS_OF_A_STICK)),
      ...differences.filter((mm) => mm > 1).flatMap((mm) => parts(mm, PARTS_OF_A_DIFFERENCE)),
      ...runsMm.flatMap((mm) => parts(mm, PARTS_OF_A_RUN)),
    ]),
  ].slice(0, MOST_UNITS)
}
