import { LENGTH_SLACK_MM, longer } from '../../measure/counting.ts'
import type { Run } from './problem.ts'

/** A piece of a run, cut from one of the chain's sticks. */
export interface ChainPiece {
  readonly run: number
  readonly fromMm: number
  readonly lengthMm: number
  /** Which of the chain's sticks, in the order in which they are laid. */
  readonly stick: number
}

/**
 * Lays runs end to end over sticks, each joint as far along as the stick, the next piece and the places for joints allow.
 * Nothing that lies further back can make room for more later, so for runs and sticks in this order it finds a way
 * whenever there is one.
 *
 * @param runs the chain's runs in the order in which they are laid, by number
 * @param sticksMm its sticks in the order in which they are laid
 * @returns the pieces, or null where the sticks do not hold the runs
 */
export function layChain(
  all: readonly Run[],
  runs: readonly number[],
  sticksMm: readonly number[],
  kerfMm: number,
  shortestMm: number,
): ChainPiece[] | null {
  const pieces: ChainPiece[] = []
  let at = 0
  let fromMm = 0
  for (let stick = 0; stick < sticksMm.length && at < runs.length; stick++) {
    let spaceMm = sticksMm[stick]!
    while (at < runs.length) {
      const run = runs[at]!
      const { lengthMm: wholeMm, jointBy } = all[run]!
      const restMm = wholeMm - fromMm
      if (!longer(restMm, spaceMm)) {
        pieces.push({ run, fromMm, lengthMm: restMm, stick })
        spaceMm -= restMm + kerfMm
        at++
        fromMm = 0
        if (spaceMm <= LENGTH_SLACK_MM) break
        continue
      }
      const furthestMm = fromMm + Math.min(spaceMm, restMm - shortestMm)
      const jointMm = jointBy ? jointBy(furthestMm + LENGTH_SLACK_MM) : furthestMm
      const lengthMm = jointMm - fromMm
      if (lengthMm > 0 && !longer(shortestMm, lengthMm)) {
        pieces.push({ run, fromMm, lengthMm, stick })
        fromMm = jointMm
      }
      break
    }
  }
  return at < runs.length ? null : pieces
}

/** Chains of more runs are not tried in every order. */
const MOST_PERMUTED = 5
const MOST_ORDERS = 120

/**
 * The first order of runs and sticks in which a chain can be laid.
 */
export function arrangeChain(
  all: readonly Run[],
  runs: readonly number[],
  sticksMm: readonly number[],
  kerfMm: number,
  shortestMm: number,
): ChainPiece[] | null {
  const stickOrders = ordersOf(sticksMm, (mm) => mm)
  for (const order of ordersOf(runs, (run) => all[run]!.lengthMm))
    for (const sticks of stickOrders) {
      const pieces = layChain(all, order, sticks, kerfMm, shortestMm)
      if (pieces) return pieces
    }
  return null
}

/** Every order of a few items that differ; of many the sorted ones and those turned round from them. */
function ordersOf<T>(items: readonly T[], size: (item: T) => number): T[][] {
  const sorted = [...items].sort((a, b) => size(b) - size(a))
  if (sorted.length <= MOST_PERMUTED) return permutations(sorted, size)
  if (size(sorted[0]!) === size(sorted.at(-1)!)) return [sorted]
  const turned = sorted.flatMap((_, n) => {
    const rotated = [...sorted.slice(n), ...sorted.slice(0, n)]
    return [rotated, [...rotated].reverse()]
  })
  const zigzag = sorted.map((_, n) => (n % 2 === 0 ? sorted[n / 2]! : sorted[sorted.length - (n + 1) / 2]!))
  return [...turned, zigzag].slice(0, MOST_ORDERS)
}

function permutations<T>(items: readonly T[], size: (item: T) => number): T[][] {
  if (items.length <= 1) return [[...items]]
  const seen = new Set<number>()
  return items.flatMap((first, n) => {
    if (seen.has(size(first))) return []
    seen.add(size(first))
    return permutations([...items.slice(0, n), ...items.slice(n + 1)], size).map((rest) => [first, ...rest])
  })
}
