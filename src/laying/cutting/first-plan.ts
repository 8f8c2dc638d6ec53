import { piecesToCover } from '../../measure/counting.ts'
import { sum } from '../../measure/sum.ts'
import { arrangeChain, isFree } from './arrange-chain.ts'
import { CHAIN_LIMITS, type SearchEffort, STEPS_OF, withSteps } from './effort.ts'
import type { ChainLayout } from './lay-chain.ts'
import { layChains } from './lay-chains.ts'
import { StickLaying } from './lay-sticks.ts'
import type { Chain, CutProblem, Work } from './problem.ts'

/** A plan that is already known. */
export interface Known {
  readonly cost: number
  readonly joints: number
  readonly layouts: readonly ChainLayout[] | null
}

/** A plan to start from, where joints have rules or pieces must not be too short: the better ones are looked for below it. */
export function firstPlan(problem: CutProblem, effort: SearchEffort, work: Work): Known | null {
  return laidCheaply(problem, effort, work) ?? runsApart(problem)
}

/** Stick after stick, whatever is cheapest. */
function laidCheaply(problem: CutProblem, effort: SearchEffort, work: Work): Known | null {
  if (problem.lengths.length === 0 || problem.runs.every(isFree)) return null
  const layout = withSteps(work, CHAIN_LIMITS[effort].firstLaying, STEPS_OF.stickLaying, (slice) =>
    new StickLaying(problem).layCheaply(slice),
  )
  return layout && knownOf(problem, [layout])
}

/** Each run gets its own sticks: expensive, but able to keep almost any rules for joints. */
function runsApart(problem: CutProblem): Known | null {
  const { runs, lengths } = problem
  const chains: Chain[] = []
  for (const [run] of runs.entries()) {
    const found = lengths.flatMap((stick, t): Chain[] => {
      if (Number.isFinite(stick.limit)) return []
      const count = sticksFor(problem, run, stick.lengthMm)
      return count === null ? [] : [{ runs: [run], sticks: lengths.map((_, at) => (at === t ? count : 0)) }]
    })
    const cost = ({ sticks }: Chain) => problem.costOf(sticks)
    const best = found.reduce<Chain | null>((a, b) => (a && cost(a) <= cost(b) ? a : b), null)
    if (!best) return null
    chains.push(best)
  }
  for (let more = 0; more <= MORE_STICKS; more++) {
    const roomier = chains.map(({ runs: own, sticks }) => ({
      runs: own,
      sticks: sticks.map((count) => (count > 0 ? count + more : 0)),
    }))
    const layouts = layChains(problem, roomier)
    if (layouts) return knownOf(problem, layouts)
  }
  return null
}

/** Extra sticks that a run may take so that its joints are where they are allowed. */
const MORE_STICKS = 4

/** How many sticks of one length a run takes by itself; null where it takes far too many. */
function sticksFor({ runs, kerfMm, minimumPieceMm }: CutProblem, run: number, stickMm: number): number | null {
  const most = 2 * piecesToCover(runs[run]!.lengthMm, stickMm) + MORE_STICKS
  const enough = new Array<number>(most).fill(stickMm)
  const laid = arrangeChain(runs, [run], enough, { kerfMm, shortestMm: minimumPieceMm })
  // Each further piece is from a further stick.
  return laid && laid.pieces.at(-1)!.stick + 1
}

function knownOf({ runs, lengths, costOf, joinersCost }: CutProblem, layouts: readonly ChainLayout[]): Known {
  const sticks = layouts.flatMap((layout) => layout.sticksMm)
  const counts = lengths.map(({ lengthMm }) => sticks.filter((stickMm) => stickMm === lengthMm).length)
  const joints = sum(layouts.map(({ pieces }) => pieces.length)) - runs.length
  return { cost: costOf(counts) + joinersCost(joints), joints, layouts }
}
