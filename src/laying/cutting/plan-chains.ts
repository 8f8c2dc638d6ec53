import { LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import { isFree } from './arrange-chain.ts'
import { ChainBound } from './chain-bound.ts'
import { ChainSearch } from './chain-search.ts'
import { CHAIN_LIMITS, type ChainLimits, partFor, type SearchEffort, STEPS_OF, withSteps, workFor } from './effort.ts'
import { bestOfEqual, shortestOf } from './equal-plans.ts'
import type { ChainLayout } from './lay-chain.ts'
import { layChains } from './lay-chains.ts'
import { LayingByStick } from './laying-by-stick.ts'
import type { Chain, CutProblem, Work } from './problem.ts'
import { ProblemNeeds } from './problem-needs.ts'
import { type Target, targetsBelow } from './targets.ts'

export interface PlannedChains {
  /** The chains as they are laid; null where nothing better than the known plan was found. */
  readonly layouts: readonly ChainLayout[] | null
  readonly cost: number
  readonly joints: number
  /** No plan costs less. */
  readonly leastCost: number
  /** Better targets that could not be ruled out; null where their list is not complete. */
  readonly open: readonly Target[] | null
}

type Found = Pick<PlannedChains, 'layouts' | 'cost' | 'joints'>

/** With rules for joints, or trim, many chains cannot be laid, and searching longer rarely helps. */
const PART_WITH_RULES = 1 / 32
/** With more runs there are too many ways to make chains of them. */
const MOST_RUNS_FOR_LONGER = 8
/** With more pieces, laying a chain alone takes long. */
const MOST_PIECES_FOR_LONGER = 40
/**
 * The cheapest cut plan that can be found, and a lower bound of the cost. The targets are tried
 * from the cheapest on; each is ruled out by a bound, or searched for.
 *
 * @param known the cost and joints of a known plan; infinite where there is none
 */
export function planChains(
  problem: CutProblem,
  known: { readonly cost: number; readonly joints: number },
  effort: SearchEffort | 'bound',
  work: Work = workFor(effort === 'bound' ? 'quick' : effort),
): PlannedChains {
  const limits = CHAIN_LIMITS[effort]
  const part = partFor(problem.lengths.length)
  const needs = new ProblemNeeds(problem)
  const bounded = { ...problem, runs: needs.runsMm.map((lengthMm) => ({ lengthMm })) }
  const bound = new ChainBound(bounded)
  const { targets, all } = withSteps(work, part * limits.targets, STEPS_OF.targets, (slice) =>
    targetsBelow(problem, bound, known, needs, slice),
  )
  const search = new ChainSearch(problem, bound, needs)
  const roughly = all ? null : roughBound(bounded)
  const byStick = problem.runs.every(isFree) ? null : new LayingByStick(problem, known)
  // Pieces are made even by laying chains, and only rail without trim.
  const evens = problem.cutting === 'even-pieces' && !problem.runs.some(({ trim }) => trim)
  const open: Target[] = []
  /** Targets are in order; a bound that was found later may have ruled out the first of them. */
  const leastOpen = () => open.find((target) => !ruledOut(bound, target))?.cost ?? known.cost
  const result = (found: Found): PlannedChains => ({
    ...found,
    leastCost: roughly ?? leastOpen(),
    open: all ? targets.filter((target) => isBetter(target, found) && !ruledOut(bound, target)) : null,
  })
  if (byStick)
    withSteps(work, limits.perStickLaying, STEPS_OF.stickLaying, (slice) =>
      byStick.search(
        targets.filter((target) => !ruledOut(bound, target)),
        slice,
      ),
    )
  let left = Math.min(limits.inAll * (byStick ? PART_WITH_RULES : 1) * part, Math.max(0, work.left))
  let tries = 0
  const spend = <T>(most: number, done: (slice: Work) => T): T => {
    const slice = { left: most }
    const result = done(slice)
    left -= most - slice.left
    work.left -= most - slice.left
    return result
  }
  const chainsFor = (target: Target): readonly Chain[] | 'none' | 'gave-up' => {
    const { counts, chains } = target
    // All runs on all sticks: if they can be laid, nothing needs to be chosen, and the target needs no bound.
    if (chains === 1 && open.length === 0 && problem.runs.length <= MOST_RUNS_FOR_LONGER) {
      const one = spend(Math.min(left, limits.perTry), (slice) => search.oneChain(counts, slice))
      if (one) return one
    }
    const cut = spend(Math.min(left, limits.perBound), (slice) => search.cut(counts, chains, slice))
    if (cut) bound.add(cut)
    if (ruledOut(bound, target)) return 'none'
    tries++
    if (!cut) return 'gave-up'
    return spend(Math.min(Math.max(left, 1), limits.perTry), (slice) => search.find(counts, chains, cut, slice))
  }
  for (const target of targets) {
    if (ruledOut(bound, target)) continue
    if (byStick?.best && !isBetter(target, byStick.best) && !(evens && isAsGood(target, byStick.best))) break
    if (target.chains === 0) {
      open.push(target)
      continue
    }
    if (left <= 0 || tries >= limits.tries) {
      open.push(target)
      break
    }
    const found = chainsFor(target)
    if (found === 'none') continue
    open.push(target)
    if (found === 'gave-up') continue
    const layouts = layChains(problem, found)
    if (!layouts) continue
    const equal = targets.filter(
      ({ cost, joints, bought }) => cost === target.cost && joints === target.joints && bought === target.bought,
    )
    const best =
      limits.perLonger > 0 &&
      problem.runs.length <= MOST_RUNS_FOR_LONGER &&
      layouts.reduce((sum, { pieces }) => sum + pieces.length, 0) <= MOST_PIECES_FOR_LONGER &&
      Number.isFinite(shortestOf(layouts, problem.runs.length))
        ? bestOfEqual(problem, equal, layouts, { left: limits.perLonger })
        : layouts
    return result({ layouts: best, cost: target.cost, joints: target.joints })
  }
  if (byStick?.best) return result(byStick.best)
  const fallback = limits.fastSets > 0 ? slightlyDearer(problem, bound, search, targets, limits, work) : null
  return result(fallback ?? { layouts: null, cost: known.cost, joints: known.joints })
}

/** If the best was not found: the cheapest sets of sticks, laid as many chains as a quick search finds. */
function slightlyDearer(
  problem: CutProblem,
  bound: ChainBound,
  search: ChainSearch,
  targets: readonly Target[],
  { fastSets, workPerFastSet }: ChainLimits,
  work: Work,
): Found | null {
  const bySticks = new Map<string, readonly number[]>()
  for (const target of targets) {
    if (bySticks.size === fastSets) break
    if (!ruledOut(bound, target)) bySticks.set(target.counts.join(), target.counts)
  }
  let best: Found | null = null
  const dearest = targets.at(-1)
  for (const counts of bySticks.values()) {
    const chains = withSteps(work, workPerFastSet, STEPS_OF.search, (slice) => search.fastChains(counts, slice))
    const layouts = chains && layChains(problem, chains)
    if (!layouts) continue
    const joints = layouts.reduce((sum, { pieces }) => sum + pieces.length, 0) - problem.runs.length
    const cost = problem.costOf(counts) + problem.joinersCost(joints)
    if (cost > (best ?? dearest!).cost || (best && cost === best.cost && joints >= best.joints)) continue
    best = { layouts, cost, joints }
  }
  return best
}

export function isBetter(a: { cost: number; joints: number }, b: { cost: number; joints: number }): boolean {
  return a.cost < b.cost || (a.cost === b.cost && a.joints < b.joints)
}

function isAsGood(a: { cost: number; joints: number }, b: { cost: number; joints: number }): boolean {
  return a.cost === b.cost && a.joints === b.joints
}

function ruledOut(bound: ChainBound, { counts, chains }: Target): boolean {
  return !bound.allows(counts, chains)
}

/**
 * By length alone: what is on hand is used first, the rest is of the stick with the lowest price per length; and the
 * fewest joints.
 */
function roughBound({ runs, lengths, joinersCost }: CutProblem): number {
  const allMm = runs.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
  const freeMm = lengths.reduce((sum, { lengthMm, free }) => sum + lengthMm * free, 0)
  const perMm = Math.min(
    ...lengths.filter(({ limit, free }) => limit > free).map(({ leastCost, lengthMm }) => leastCost / lengthMm),
  )
  const longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
  const fewestJoints = runs.reduce((sum, { lengthMm }) => sum + piecesToCover(lengthMm, longestMm) - 1, 0)
  const boughtMm = Math.max(0, allMm - freeMm - LENGTH_SLACK_MM)
  return Math.floor(boughtMm > 0 && Number.isFinite(perMm) ? boughtMm * perMm : 0) + joinersCost(fewestJoints)
}
