import { LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import { type ChainCut, CUT_SLACK, spareIn } from './chain-cut.ts'
import type { CutProblem } from './problem.ts'

/**
 * The most chains that sticks can be divided into. For any unit length u, by ⌈a + b⌉ ≤ ⌈a⌉ + ⌈b⌉ and
 * Σ(⌈Lᵢ/u⌉ − 1) ≤ ⌈ΣLᵢ/u⌉ − 1, a chain of runs Lᵢ over sticks Sₜ has
 *
 *   Σ(⌈Lᵢ/u⌉ − 1) + 1 ≤ Σ⌈Sₜ/u⌉,
 *
 * so that chains ≤ Σ over sticks ⌈Sₜ/u⌉ − Σ over runs (⌈Lᵢ/u⌉ − 1): with u the longest stick the well-known least
 * number of joints, with u a part of a stick what does not fit side by side (a dual feasible function; Lueker, *Bin
 * packing with items uniformly distributed over intervals*, 1983). Derived; tests/laying/cutting/chain-bound.test.ts
 * compares it with every division of small problems.
 */
export class ChainBound {
  /** The units that are tried, mm. */
  private readonly unitsMm: readonly number[]
  /** For each unit, the value of a stick of each length. */
  private readonly perStick: readonly (readonly number[])[]
  /** For each unit, Σ(⌈L/u⌉ − 1) over all the runs. */
  private readonly allWholes: readonly number[]
  private readonly runCount: number
  private readonly problem: Pick<CutProblem, 'runs' | 'lengths' | 'kerfMm'>
  private readonly runsMm: number
  private readonly cuts: ChainCut[] = []

  constructor(problem: Pick<CutProblem, 'runs' | 'lengths' | 'kerfMm'>) {
    this.problem = problem
    const runsMm = problem.runs.map(({ lengthMm }) => lengthMm)
    const sticksMm = problem.lengths.map(({ lengthMm }) => lengthMm)
    this.runCount = runsMm.length
    this.runsMm = runsMm.reduce((sum, mm) => sum + mm, 0)
    this.unitsMm = unitsFor(sticksMm, runsMm)
    this.perStick = this.unitsMm.map((unit) => sticksMm.map((mm) => piecesToCover(mm, unit)))
    this.allWholes = this.unitsMm.map((unit) => runsMm.reduce((sum, mm) => sum + piecesToCover(mm, unit) - 1, 0))
  }

  /** The most chains for given numbers of sticks of each length; below 1 where they cannot hold the runs. */
  most(counts: readonly number[]): number {
    let most = Math.min(
      this.runCount,
      counts.reduce((sum, count) => sum + count, 0),
    )
    for (let n = 0; n < this.unitsMm.length; n++) most = Math.min(most, this.room(n, counts))
    while (most >= 1 && !this.allows(counts, most)) most--
    return most
  }

  /** Adds another bound; it must hold for any sticks. */
  add(cut: ChainCut): void {
    this.cuts.push(cut)
  }

  /** The waste of given sticks laid as a number of chains; below 0 where they do not hold the runs. */
  wasteMm(counts: readonly number[], chains: number): number {
    const { lengths, kerfMm } = this.problem
    let sticksMm = 0
    for (let t = 0; t < counts.length; t++) sticksMm += counts[t]! * lengths[t]!.lengthMm
    return sticksMm - this.runsMm - kerfMm * (this.runCount - chains)
  }

  /** Whether all the added bounds allow this number of chains. */
  allows(counts: readonly number[], chains: number): boolean {
    const wasteMm = this.wasteMm(counts, chains)
    return wasteMm >= -LENGTH_SLACK_MM && this.cuts.every((cut) => spareIn(cut, counts, wasteMm, chains) >= -CUT_SLACK)
  }

  /** For one unit. */
  private room(unit: number, counts: readonly number[]): number {
    let sum = -this.allWholes[unit]!
    const perStick = this.perStick[unit]!
    for (let t = 0; t < counts.length; t++) sum += counts[t]! * perStick[t]!
    return sum
  }
}

/** A stick is divided into up to this many parts, a run and a difference of sticks into fewer. */
const PARTS_OF_A_STICK = 40
const PARTS_OF_A_DIFFERENCE = 10
const PARTS_OF_A_RUN = 6
/** With very many runs or lengths the remaining units are left out: the bound holds for any units. */
const MOST_UNITS = 400

function unitsFor(sticksMm: readonly number[], runsMm: readonly number[]): number[] {
  const units = new Set<number>()
  const add = (mm: number, parts: number) => {
    for (let n = 1; n <= parts && units.size < MOST_UNITS; n++) units.add(mm / n)
  }
  for (const mm of sticksMm) add(mm, PARTS_OF_A_STICK)
  for (const [n, a] of sticksMm.entries())
    for (const b of sticksMm.slice(n + 1)) if (Math.abs(a - b) > 1) add(Math.abs(a - b), PARTS_OF_A_DIFFERENCE)
  for (const mm of runsMm) add(mm, PARTS_OF_A_RUN)
  return [...units]
}
