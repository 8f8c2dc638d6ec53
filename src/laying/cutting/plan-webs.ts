import { wholePiecesIn } from '../../measure/counting.ts'
import type { ChainLayout } from './lay-chain.ts'
import { sticksMm } from './lay-chains.ts'
import { layWeb } from './lay-web.ts'
import { isBetter } from './plan-chains.ts'
import type { CutProblem, Work } from './problem.ts'
import type { Target } from './targets.ts'

export interface PlannedWebs {
  /** All the sticks as one layout; null where nothing better was found. */
  readonly layout: ChainLayout | null
  readonly cost: number
  readonly joints: number
  /** No plan costs less. */
  readonly leastCost: number
}

/** Problems with more pieces than this are too large to search. */
const MOST_PIECES = 18
/** The share of the remaining work for one target. */
const PART_A_TARGET = 1 / 3

/**
 * Tries the targets of a small problem without rules for joints, where any runs may share any stick, including pieces
 * that go round in circles: that is sometimes better where there is a minimum piece.
 *
 * @param open all better targets that no bound rules out
 * @param better only better plans are of use
 */
export function planWebs(
  problem: CutProblem,
  open: readonly Target[],
  better: { readonly cost: number; readonly joints: number },
  work: Work,
): PlannedWebs {
  const { runs, lengths, kerfMm, minimumPieceMm, cutting } = problem
  let found: { readonly layout: ChainLayout; readonly target: Target } | null = null
  let shortestMm = minimumPieceMm
  let leastCost: number | null = null
  for (const target of withCircles(problem, open, better)) {
    if (found && cutting === 'whole-sticks') break
    if (found && (target.cost !== found.target.cost || target.joints !== found.target.joints)) break
    const pieces = runs.length + target.joints
    const slice = { left: pieces > MOST_PIECES ? 0 : work.left * PART_A_TARGET }
    const before = slice.left
    const laid =
      slice.left > 0
        ? layWeb(runs, sticksMm(lengths, target.counts), pieces, { kerfMm, shortestMm, cutting }, slice)
        : null
    work.left -= before - slice.left
    if (!laid?.whole && !found) leastCost ??= target.cost
    if (!laid?.layout) continue
    found = { layout: laid.layout, target }
    shortestMm = laid.shortestMm
  }
  const { cost, joints } = found?.target ?? better
  return { layout: found?.layout ?? null, cost, joints, leastCost: Math.min(leastCost ?? cost, cost) }
}

/** Pieces that go round in circles have as many joints as there are sticks, or more. */
function withCircles(
  { runs, minimumPieceMm, costOf, joinersCost }: CutProblem,
  open: readonly Target[],
  better: { readonly cost: number; readonly joints: number },
): Target[] {
  const mostPieces = runs.reduce((sum, { lengthMm }) => sum + Math.max(1, wholePiecesIn(lengthMm, minimumPieceMm)), 0)
  const mostJoints = Math.min(mostPieces, MOST_PIECES + 1) - runs.length
  const all = open.flatMap((target): Target[] => {
    if (target.chains > 0) return [target]
    const more: Target[] = []
    for (let { joints } = target; joints <= mostJoints; joints++) {
      const cost = costOf(target.counts) + joinersCost(joints)
      if (!isBetter({ cost, joints }, better)) break
      more.push({ ...target, joints, cost })
    }
    return more
  })
  return all.sort((a, b) => a.cost - b.cost || a.joints - b.joints || a.bought - b.bought)
}
