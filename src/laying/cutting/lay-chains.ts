import { exceeds, LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import { sum } from '../../measure/sum.ts'
import { arrangeChain, ordersToLay } from './arrange-chain.ts'
import { cutSticks } from './cut-sticks.ts'
import { type ChainLayout, layChain } from './lay-chain.ts'
import { compareNeatness, neatnessOf } from './neatness.ts'
import type { Chain, CutProblem, Run } from './problem.ts'

/** Chains that conflict in one order are laid in another, the one that failed first. */
const MOST_RESTARTS = 6
/** For a chain with more runs and sticks only a few orders are tried for longer pieces. */
const FEW_PARTS = 8
const FEW_ORDERS = 6
/** Bisection steps for the longest shortest piece. */
const HALVINGS = 32
/** Limit of pieces laid during the search; in very large plans the shortest piece is then less precise. */
const MOST_LAID = 10_000
const PARTS_OF_A_MM = 10_000

/**
 * Lays chains so that few sticks are cut and the leftovers are long, each joint as far along as possible; or so that the
 * shortest piece is as long as possible, and then each joint as far along as that allows.
 *
 * @param leastMm pieces are no shorter than this
 * @returns each chain as it is laid, or null where joints cannot be kept apart, or pieces are too short
 */
export function layChains(
  problem: CutProblem,
  chains: readonly Chain[],
  leastMm = problem.minimumPieceMm,
): ChainLayout[] | null {
  let best = layAll(problem, chains, leastMm)
  if (!best) return null
  if (problem.cutting === 'whole-sticks') return problem.apart ? best : neatly(problem, chains, best, leastMm)
  let low = leastMm
  const longestMm = Math.max(...problem.lengths.map(({ lengthMm }) => lengthMm))
  let high = Math.max(low, longestMm)
  // The shortest piece of a run that is longer than every stick is no longer than an even share of the run.
  for (const { lengthMm } of problem.runs)
    if (exceeds(lengthMm, high)) high = Math.min(high, Math.max(low, lengthMm / piecesToCover(lengthMm, longestMm)))
  const whole = layAll(problem, chains, high, best)
  if (whole) return whole
  const parts = best.reduce((sum, { pieces }) => sum + pieces.length, 0)
  const halvings = Math.min(HALVINGS, Math.ceil(MOST_LAID / parts))
  for (let n = 0; n < halvings && high - low > LENGTH_SLACK_MM; n++) {
    const middle = (low + high) / 2
    const laid = layAll(problem, chains, middle, best)
    if (laid) {
      best = laid
      low = middle
    } else high = middle
  }
  // Lengths are usually given to a tenth of a millimetre, so the result of the bisection is rounded to such a length.
  const given = Math.round(low * PARTS_OF_A_MM) / PARTS_OF_A_MM
  return (Math.abs(given - low) <= 2 * LENGTH_SLACK_MM ? layAll(problem, chains, given, best) : null) ?? best
}

/** Each chain in the order that cuts whole sticks best. */
function neatly(
  { runs, lengths, kerfMm }: CutProblem,
  chains: readonly Chain[],
  laid: readonly ChainLayout[],
  shortestMm: number,
): ChainLayout[] {
  const neatness = (layout: ChainLayout) => neatnessOf(cutSticks(runs, layout, kerfMm), kerfMm)
  return laid.map((first, n) => {
    const { runs: own, sticks } = chains[n]!
    if (own.length + sum(sticks) > FEW_PARTS) return first
    let best = first
    let neatest = neatness(first)
    for (const { order, sticksMm: inOrder } of ordersToLay(runs, own, sticksMm(lengths, sticks))) {
      const pieces = layChain(runs, order, inOrder, { kerfMm, shortestMm })
      if (!pieces) continue
      const layout = { sticksMm: inOrder, pieces }
      const neat = neatness(layout)
      if (compareNeatness(neat, neatest) >= 0) continue
      best = layout
      neatest = neat
    }
    return best
  })
}

function layAll(
  problem: CutProblem,
  chains: readonly Chain[],
  shortestMm: number,
  before?: readonly ChainLayout[],
): ChainLayout[] | null {
  const { runs, kerfMm, lengths, apart } = problem
  /** The stations of the joints of each run. */
  const joints: number[][] = runs.map(() => [])
  const watched = apart ? runs.map((run) => keepingApart(run, joints, apart.byMm)) : runs
  let order = chains.map((_, n) => n)
  for (let restart = 0; restart <= (apart ? MOST_RESTARTS : 0); restart++) {
    const layouts = new Array<ChainLayout>(chains.length)
    for (const list of joints) list.length = 0
    const failed = order.find((n) => {
      const { runs: chainRuns, sticks } = chains[n]!
      const layout = arrangeChain(
        watched,
        chainRuns,
        sticksMm(lengths, sticks),
        {
          kerfMm,
          shortestMm,
          onJoint: (run, mm) => joints[run]!.push(runs[run]!.beside?.stationAt(mm) ?? mm),
          onRestart: () => {
            for (const run of chainRuns) joints[run]!.length = 0
          },
        },
        before?.[n],
        before && chainRuns.length + sum(sticks) > FEW_PARTS ? FEW_ORDERS : undefined,
      )
      if (!layout) return true
      layouts[n] = layout
      return false
    })
    if (failed === undefined) return layouts
    if (order[0] === failed) return null
    order = [failed, ...order.filter((n) => n !== failed)]
  }
  return null
}

/** A run whose joints keep away from the existing joints of its neighbour, given by their stations in order. */
function keepingApart(run: Run, joints: readonly number[][], byMm: number): Run {
  const { beside, jointBy } = run
  if (!beside) return run
  const there = joints[beside.run]!
  const withinMm = byMm - LENGTH_SLACK_MM
  return {
    ...run,
    jointBy: (furthestMm, fromMm) => {
      let mm = jointBy ? jointBy(furthestMm, fromMm) : furthestMm
      while (mm > fromMm) {
        const here = beside.stationAt(mm)
        const first = there[firstIndexWhere(there.length, (n) => there[n]! > here - withinMm)]
        if (first === undefined || first >= here + withinMm) return mm
        const before = Math.min(mm - 2 * LENGTH_SLACK_MM, beside.placeAt(first - byMm))
        mm = jointBy ? jointBy(before, fromMm) : before
      }
      return -1
    },
  }
}

export function sticksMm(lengths: CutProblem['lengths'], counts: readonly number[]): number[] {
  return counts.flatMap((count, t) => new Array<number>(count).fill(lengths[t]!.lengthMm))
}
