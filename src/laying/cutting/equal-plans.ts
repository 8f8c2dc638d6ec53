import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { arrangeChain } from './arrange-chain.ts'
import { cutSticks } from './cut-sticks.ts'
import type { ChainLayout } from './lay-chain.ts'
import { layChains, sticksMm } from './lay-chains.ts'
import { compareNeatness, neatnessOf } from './neatness.ts'
import type { Chain, CutProblem, Work } from './problem.ts'

/** Pieces must be longer by more than this for other chains to be better. */
const WORTH_MM = 1e-3
/** How many times chains are laid until their shortest piece is as long as possible. */
const TIMES_LAID = 32

/**
 * Tries every way to divide runs and sticks into chains of the same cost, and lays those that cut whole sticks best or
 * whose shortest piece is longest, as the problem asks. If the work runs out, the best found so far.
 *
 * @param targets sticks of each length and the number of chains to lay, all equally good
 * @param laid the best so far
 */
export function bestOfEqual(
  problem: CutProblem,
  targets: readonly { readonly counts: readonly number[]; readonly chains: number }[],
  laid: readonly ChainLayout[],
  work: Work,
): readonly ChainLayout[] {
  const { runs, lengths, kerfMm } = problem
  const whole = problem.cutting === 'whole-sticks'
  const neatness = (layouts: readonly ChainLayout[]) =>
    neatnessOf(
      layouts.flatMap((layout) => cutSticks(runs, layout, kerfMm)),
      kerfMm,
    )
  let best = laid
  let neatest = neatness(laid)
  const leastMm = () => (whole ? problem.minimumPieceMm : neatest.shortestMm + WORTH_MM)
  const chains: Chain[] = []
  const allPieces = laid.reduce((sum, { pieces }) => sum + pieces.length, 0)

  const divide = (left: readonly number[], counts: readonly number[], wanted: number): void => {
    if (left.length === 0) {
      if (wanted > 0 || counts.some((count) => count > 0)) return
      const layouts = layChains(problem, chains, leastMm())
      work.left -= (layouts && !whole ? TIMES_LAID : 1) * allPieces
      if (!layouts) return
      const neat = neatness(layouts)
      if (whole && compareNeatness(neat, neatest) >= 0) return
      best = layouts
      neatest = neat
      return
    }
    if (wanted === 0) return
    const [first, ...others] = left
    const choose = (from: number, taken: readonly number[], lengthMm: number) => {
      if (work.left-- <= 0) return
      const rest = left.filter((run) => !taken.includes(run))
      if (wanted > 1 || rest.length === 0)
        for (const sticks of wanted > 1 ? waysToTake(counts) : [counts]) {
          work.left--
          const haveMm = sticks.reduce((sum, count, t) => sum + count * lengths[t]!.lengthMm, 0)
          if (haveMm < lengthMm - LENGTH_SLACK_MM) continue
          if (!canBeLongEnough(taken, sticks)) continue
          chains.push({ runs: taken, sticks })
          divide(
            rest,
            counts.map((count, t) => count - sticks[t]!),
            wanted - 1,
          )
          chains.pop()
        }
      for (let n = from; n < others.length; n++)
        choose(n + 1, [...taken, others[n]!], lengthMm + kerfMm + runs[others[n]!]!.lengthMm)
    }
    choose(0, [first!], runs[first!]!.lengthMm)
  }
  const canBeLongEnough = (taken: readonly number[], sticks: readonly number[]) => {
    const rules = { kerfMm, shortestMm: leastMm(), work }
    return arrangeChain(runs, taken, sticksMm(lengths, sticks), rules) !== null
  }
  const all = runs.map((_, run) => run)
  for (const { counts, chains: wanted } of targets) divide(all, counts, wanted)
  return best
}

/** Shortest piece of the divided runs; infinite where none is divided. */
export function shortestOf(layouts: readonly ChainLayout[], runCount: number): number {
  const all = layouts.flatMap(({ pieces }) => pieces)
  const count = new Array<number>(runCount).fill(0)
  for (const { run } of all) count[run]!++
  return Math.min(...all.filter(({ run }) => count[run]! > 1).map(({ lengthMm }) => lengthMm))
}

/** Every way to take at least one of some sticks. */
function waysToTake(counts: readonly number[]): number[][] {
  return counts
    .reduce<number[][]>(
      (ways, count) => ways.flatMap((way) => Array.from({ length: count + 1 }, (_, n) => [...way, n])),
      [[]],
    )
    .filter((way) => way.some((count) => count > 0))
}
