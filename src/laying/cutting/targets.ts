import { LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import type { ChainBound } from './chain-bound.ts'
import type { CutProblem, Work } from './problem.ts'
import type { ProblemNeeds } from './problem-needs.ts'

/** Sticks to be used and the number of chains to lay from them, and the cost. */
export interface Target {
  readonly counts: readonly number[]
  /** 0: pieces go round in circles, so that there are as many joints as sticks. Only its cost is known. */
  readonly chains: number
  readonly cost: number
  readonly joints: number
  /** Sticks that are not on hand; even where a pack is bought anyway, sticks on hand are used first. */
  readonly bought: number
}

/** Nobody looks at more; they would only take memory. */
const MOST_TARGETS = 100_000

/**
 * All targets that are better than `better`: cheapest first, then fewest joints, then
 * most sticks on hand used.
 *
 * @returns the targets, and whether the list is complete
 */
export function targetsBelow(
  problem: CutProblem,
  bound: ChainBound,
  better: { readonly cost: number; readonly joints: number },
  needs: ProblemNeeds,
  work: Work,
): { targets: Target[]; all: boolean } {
  const { lengths, runs, kerfMm, minimumPieceMm, costOf, joinersCost } = problem
  const runsMm = needs.withJoints(Number.POSITIVE_INFINITY)
  const order = lengths.map((_, t) => t).sort((a, b) => lengths[b]!.lengthMm - lengths[a]!.lengthMm)
  const counts = lengths.map(() => 0)
  const { fewestJoints } = needs
  if (fewestJoints === Number.POSITIVE_INFINITY) return { targets: [], all: true }
  const leastJoiners = joinersCost(fewestJoints)
  // Without a minimum piece, whatever goes round in circles can also be laid end to end.
  const fewestChains = minimumPieceMm > 0 ? 0 : 1
  const targets: Target[] = []
  let all = true

  const addChains = (lengthMm: number) => {
    const sticks = counts.reduce((sum, count) => sum + count, 0)
    const most = bound.most(counts)
    const sticksCost = costOf(counts)
    const bought = counts.reduce((sum, count, t) => sum + Math.max(0, count - lengths[t]!.free), 0)
    if (most < 1) return
    if (targets.length >= MOST_TARGETS) {
      all = false
      return
    }
    for (let chains = most; chains >= fewestChains; chains--) {
      const joints = sticks - chains
      if (joints < fewestJoints) continue
      // Where pieces go round in circles there may be more joints.
      const needMm = chains > 0 ? needs.withJoints(joints) : runsMm
      if (lengthMm < needMm + kerfMm * (runs.length - chains) - LENGTH_SLACK_MM) continue
      const cost = sticksCost + joinersCost(joints)
      if (cost > better.cost || (cost === better.cost && joints >= better.joints)) return
      targets.push({ counts: [...counts], chains, cost, joints, bought })
    }
  }
  const choose = (n: number, lengthMm: number) => {
    if (work.left <= 0) {
      all = false
      return
    }
    work.left--
    if (costOf(counts) + leastJoiners > better.cost) return
    if (n === order.length) {
      if (lengthMm >= runsMm - LENGTH_SLACK_MM) addChains(lengthMm)
      return
    }
    const t = order[n]!
    const stickMm = lengths[t]!.lengthMm
    const most = Math.min(lengths[t]!.limit, piecesToCover(runsMm, stickMm) + runs.length)
    // The last length takes at least as many as are needed for the missing length.
    const last = n === order.length - 1
    const fewest = last ? Math.min(most + 1, piecesToCover(runsMm - lengthMm, stickMm)) : 0
    for (let count = fewest; count <= most; count++) {
      counts[t] = count
      if (count > 0 && costOf(counts) + leastJoiners > better.cost) break
      choose(n + 1, lengthMm + count * stickMm)
    }
    counts[t] = 0
  }
  choose(0, 0)
  targets.sort((a, b) => a.cost - b.cost || a.joints - b.joints || a.bought - b.bought || b.chains - a.chains)
  return { targets, all }
}
