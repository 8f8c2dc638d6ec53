import { isFree } from './arrange-chain.ts'
import type { CutProblem, Run } from './problem.ts'
import { RunNeeds } from './run-needs.ts'

/** The least that the runs of a problem need, see `RunNeeds`: trim included, and rules for places of joints. */
export class ProblemNeeds {
  /** By run. */
  readonly runsMm: readonly number[]
  readonly fewestJoints: number
  private readonly needs: readonly RunNeeds[]
  private readonly sumMm: number
  private readonly moreMm: readonly number[]

  constructor({ runs, lengths, minimumPieceMm }: CutProblem) {
    const longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
    const known = new Map<number, RunNeeds>()
    const needsOf = (run: Run) => new RunNeeds(run, longestMm, minimumPieceMm)
    this.needs = runs.map((run) => {
      if (!isFree(run)) return needsOf(run)
      const needs = known.get(run.lengthMm) ?? needsOf(run)
      known.set(run.lengthMm, needs)
      return needs
    })
    this.runsMm = this.needs.map(({ leastMm }) => leastMm)
    this.sumMm = this.runsMm.reduce((sum, mm) => sum + mm, 0)
    this.fewestJoints = this.needs.reduce((sum, { fewestJoints }) => sum + fewestJoints, 0)
    this.moreMm = moreThanLeast(this.needs)
  }

  /** The least rail of all runs with so many joints in all; infinite if there have to be more. */
  withJoints(joints: number): number {
    return this.sumMm + more(this.moreMm, joints - this.fewestJoints)
  }

  /** By how much some runs need more with so many joints than their least. */
  moreOf(runs: readonly number[], joints: number): number {
    const needs = runs.map((run) => this.needs[run]!)
    const fewest = needs.reduce((sum, { fewestJoints }) => sum + fewestJoints, 0)
    return more(moreThanLeast(needs), joints - fewest)
  }
}

function more(moreMm: readonly number[], joints: number): number {
  return joints < 0 ? Number.POSITIVE_INFINITY : moreMm[Math.min(joints, moreMm.length - 1)]!
}

/** By joints beyond the fewest: the least trim beyond the least of all, however the joints are shared among the runs. */
function moreThanLeast(needs: readonly RunNeeds[]): number[] {
  let all = [0]
  for (const run of needs) {
    const own = Array.from({ length: run.settledAt - run.fewestJoints + 1 }, (_, joints) => {
      return run.withJoints(run.fewestJoints + joints) - run.leastMm
    })
    if (own.length <= 1) continue
    const next = new Array<number>(all.length + own.length - 1).fill(Number.POSITIVE_INFINITY)
    for (const [a, mm] of all.entries())
      for (const [b, ownMm] of own.entries()) next[a + b] = Math.min(next[a + b]!, mm + ownMm)
    all = next
  }
  return all
}
