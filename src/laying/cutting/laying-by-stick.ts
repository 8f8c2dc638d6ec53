import type { ChainLayout } from './lay-chain.ts'
import { StickLaying } from './lay-sticks.ts'
import type { CutProblem, Work } from './problem.ts'
import type { Target } from './targets.ts'

export interface FoundByStick {
  readonly layouts: readonly ChainLayout[]
  readonly cost: number
  readonly joints: number
}

/** How many half-finished plans are kept: at first, and for another try. */
const FEW = 2
const MANY = 12
/** Tries in vain after which it stops. */
const MOST_MISSED = 3
/** More joints than a target has are tried up to this many. */
const MOST_MORE_JOINTS = 40

/** Plans laid stick after stick (see `StickLaying`) for one target after the other; the best of them. */
export class LayingByStick {
  best: FoundByStick | null = null
  private readonly problem: CutProblem
  private readonly known: { readonly cost: number; readonly joints: number }
  private readonly laying: StickLaying

  constructor(problem: CutProblem, known: { readonly cost: number; readonly joints: number }) {
    this.problem = problem
    this.known = known
    this.laying = new StickLaying(problem)
  }

  /**
   * Tries targets from the cheapest on, with growing steps until one can be laid; then those between, and then with more
   * care the ones with most rail to spare.
   */
  search(targets: readonly Target[], work: Work): void {
    const sets = [
      ...new Map(targets.map((target) => [target.counts.join(), target] as const).reverse()).values(),
    ].reverse()
    let low = -1
    let high = sets.length
    for (let step = 1, n = 0; n < sets.length; step *= 2, n += step) {
      if (this.lay(sets[n]!, FEW, work)) {
        high = n
        break
      }
      low = n
    }
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (this.lay(sets[middle]!, FEW, work)) high = middle
      else low = middle
    }
    const cheaper = sets.filter((target) => this.isWorth(target)).sort((a, b) => this.spareMm(b) - this.spareMm(a))
    let missed = 0
    for (const target of cheaper) {
      if (missed === MOST_MISSED || work.left <= 0) return
      if (!this.isWorth(target)) continue
      if (!this.lay(target, MANY, work)) missed++
    }
  }

  private isWorth({ cost, joints }: { readonly cost: number; readonly joints: number }): boolean {
    const better = this.best ?? this.known
    return cost < better.cost || (cost === better.cost && joints < better.joints)
  }

  private spareMm({ counts }: Target): number {
    return counts.reduce((sum, count, t) => sum + count * this.problem.lengths[t]!.lengthMm, 0)
  }

  /** Lays the sticks of a target with as many joints as are still worth it; whether a better plan was found. */
  private lay({ counts, joints }: Target, width: number, work: Work): boolean {
    const { costOf, joinersCost, runs, lengths } = this.problem
    const sticksCost = costOf(counts)
    let most = joints
    while (
      most < joints + MOST_MORE_JOINTS &&
      this.isWorth({ cost: sticksCost + joinersCost(most + 1), joints: most + 1 })
    )
      most++
    const layout = this.laying.lay(counts, most, width, work)
    if (!layout) return false
    const used = lengths.map(({ lengthMm }) => layout.sticksMm.filter((stickMm) => stickMm === lengthMm).length)
    const found = layout.pieces.length - runs.length
    const cost = costOf(used) + joinersCost(found)
    if (!this.isWorth({ cost, joints: found })) return false
    this.best = { layouts: [layout], cost, joints: found }
    return true
  }
}
