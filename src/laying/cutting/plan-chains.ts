import { LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import { ChainBound } from './chain-bound.ts'
import { ChainSearch } from './chain-search.ts'
import type { ChainLayout } from './lay-chain.ts'
import { layChains } from './lay-chains.ts'
import { longestPieces, shortestOf } from './longest-pieces.ts'
import type { CutProblem } from './problem.ts'
import { type Target, targetsBelow } from './targets.ts'

/** How hard to search: a quick answer, or the best possible in some seconds. */
type Effort = 'quick' | 'thorough'

/** The same, or roughly: to compare one plan with another. */
export type SearchEffort = Effort | 'rough'

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

interface Limits {
  readonly targets: number
  readonly tries: number
  /** Sets of sticks tried quickly if that fails, and the work per try. */
  readonly fastSets: number
  readonly workPerFastSet: number
  readonly perTry: number
  readonly perBound: number
  readonly inAll: number
  /** For chains of the same cost with longer pieces. */
  readonly perLonger: number
}

const LIMITS: Readonly<Record<SearchEffort, Limits>> = {
  rough: {
    targets: 2_000,
    tries: 2,
    fastSets: 1,
    workPerFastSet: 50_000,
    perTry: 200_000,
    perBound: 200_000,
    inAll: 400_000,
    perLonger: 0,
  },
  quick: {
    targets: 20_000,
    tries: 12,
    fastSets: 4,
    workPerFastSet: 200_000,
    perTry: 5_000_000,
    perBound: 6_000_000,
    inAll: 24_000_000,
    perLonger: 2_500,
  },
  thorough: {
    targets: 400_000,
    tries: 60,
    fastSets: 12,
    workPerFastSet: 4_000_000,
    perTry: 40_000_000,
    perBound: 20_000_000,
    inAll: 200_000_000,
    perLonger: 400_000,
  },
}
/** With rules for joints many chains cannot be laid, and searching longer rarely helps. */
const PART_WITH_RULES = 1 / 16
/** With more runs there are too many ways to make chains of them. */
const MOST_RUNS_FOR_LONGER = 8
/** With more pieces, laying a chain alone takes long. */
const MOST_PIECES_FOR_LONGER = 40
/** No search: only the bound is wanted. */
const BOUND_ONLY: Limits = {
  targets: 20_000,
  tries: 0,
  fastSets: 0,
  workPerFastSet: 0,
  perTry: 0,
  perBound: 0,
  inAll: 1,
  perLonger: 0,
}

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
): PlannedChains {
  const limits = effort === 'bound' ? BOUND_ONLY : LIMITS[effort]
  const bound = new ChainBound(problem)
  const { targets, all } = targetsBelow(problem, bound, known, { left: limits.targets })
  const search = new ChainSearch(problem, bound)
  const roughly = all ? null : roughBound(problem)
  const open: Target[] = []
  /** Targets are in order; a bound that was found later may have ruled out the first of them. */
  const leastOpen = () => open.find((target) => !ruledOut(bound, target))?.cost ?? known.cost
  const result = (found: Found): PlannedChains => ({
    ...found,
    leastCost: roughly ?? leastOpen(),
    open: all ? targets.filter((target) => isBetter(target, found) && !ruledOut(bound, target)) : null,
  })
  const ruled = problem.runs.some(({ jointBy, beside }) => jointBy || beside)
  let left = limits.inAll * (ruled ? PART_WITH_RULES : 1)
  let tries = 0
  for (const target of targets) {
    if (ruledOut(bound, target)) continue
    if (target.chains === 0) {
      open.push(target)
      continue
    }
    if (left <= 0 || tries >= limits.tries) {
      open.push(target)
      break
    }
    const { counts, chains } = target
    const bounding = { left: Math.min(left, limits.perBound) }
    const boundingBefore = bounding.left
    const cut = search.cut(counts, chains, bounding)
    left -= boundingBefore - bounding.left
    if (cut) bound.add(cut)
    if (ruledOut(bound, target)) continue
    tries++
    if (!cut) {
      open.push(target)
      continue
    }
    const work = { left: Math.min(Math.max(left, 1), limits.perTry) }
    const before = work.left
    const found = search.find(counts, chains, cut, work)
    left -= before - work.left
    if (found === 'none') continue
    open.push(target)
    if (found === 'gave-up') continue
    const layouts = layChains(problem, found.chains)
    if (!layouts) continue
    const equal = targets.filter(
      ({ cost, joints, bought }) => cost === target.cost && joints === target.joints && bought === target.bought,
    )
    const longest =
      problem.evenly !== false &&
      problem.runs.length <= MOST_RUNS_FOR_LONGER &&
      layouts.reduce((sum, { pieces }) => sum + pieces.length, 0) <= MOST_PIECES_FOR_LONGER &&
      Number.isFinite(shortestOf(layouts, problem.runs.length))
        ? longestPieces(problem, equal, layouts, { left: limits.perLonger })
        : layouts
    return result({ layouts: longest, cost: target.cost, joints: target.joints })
  }
  const fallback = limits.fastSets > 0 ? slightlyDearer(problem, bound, search, targets, limits) : null
  return result(fallback ?? { layouts: null, cost: known.cost, joints: known.joints })
}

/** If the best was not found: the cheapest sets of sticks, laid as many chains as a quick search finds. */
function slightlyDearer(
  problem: CutProblem,
  bound: ChainBound,
  search: ChainSearch,
  targets: readonly Target[],
  { fastSets, workPerFastSet }: Limits,
): Found | null {
  const bySticks = new Map<string, readonly number[]>()
  for (const target of targets) {
    if (bySticks.size === fastSets) break
    if (!ruledOut(bound, target)) bySticks.set(target.counts.join(), target.counts)
  }
  let best: Found | null = null
  const dearest = targets.at(-1)
  for (const counts of bySticks.values()) {
    const chains = search.fastChains(counts, { left: workPerFastSet })
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
