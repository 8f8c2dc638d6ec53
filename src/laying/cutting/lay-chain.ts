import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { Run, Work } from './problem.ts'
import { stretchAt, trimOf } from './trim.ts'

/** A piece of a run, cut from one of the chain's sticks. */
export interface ChainPiece {
  readonly run: number
  readonly fromMm: number
  readonly lengthMm: number
  /** Index of the chain's stick, in the order in which they are laid. */
  readonly stick: number
}

export interface ChainLayout {
  /** The chain's sticks in the order in which they are laid. */
  readonly sticksMm: readonly number[]
  readonly pieces: readonly ChainPiece[]
}

export interface LayingRules {
  readonly kerfMm: number
  readonly shortestMm: number
  /** Called for each joint that is made, so that others can keep away from it. */
  readonly onJoint?: ((run: number, mm: number) => void) | undefined
  /** Called before the chain is laid in another order: the joints so far are void. */
  readonly onRestart?: (() => void) | undefined
  /** The cost of laying the chain is subtracted from this. */
  readonly work?: Work | undefined
}

/**
 * Lays runs end to end over sticks, each joint as far along as the stick, the pieces after it and the places for joints
 * allow. Where a joint may be anywhere, moving it back never makes more room later, so for runs and sticks
 * in this order it finds a solution whenever there is one.
 *
 * @param order the chain's runs in the order in which they are laid, by number
 * @param sticksMm its sticks in the order in which they are laid
 * @returns the pieces, or null where the sticks do not hold the runs
 */
export function layChain(
  runs: readonly Run[],
  order: readonly number[],
  sticksMm: readonly number[],
  { kerfMm, shortestMm, onJoint }: LayingRules,
): ChainPiece[] | null {
  const pieces: ChainPiece[] = []
  const upToMm = new Float64Array(sticksMm.length + 1)
  for (let n = 0; n < sticksMm.length; n++) upToMm[n + 1] = upToMm[n]! + sticksMm[n]!
  let at = 0
  let fromMm = 0
  for (let stick = 0; stick < sticksMm.length && at < order.length; stick++) {
    let spaceMm = sticksMm[stick]!
    while (at < order.length && spaceMm > LENGTH_SLACK_MM) {
      const run = order[at]!
      const { lengthMm: wholeMm } = runs[run]!
      const restMm = wholeMm - fromMm
      const { startMm, endMm } = trimOf(runs[run]!, fromMm, restMm)
      const sawnMm = startMm + restMm + endMm
      if (!exceeds(sawnMm, spaceMm)) {
        pieces.push({ run, fromMm, lengthMm: restMm, stick })
        spaceMm -= sawnMm + kerfMm
        at++
        fromMm = 0
        continue
      }
      const jointMm = bestJoint(runs[run]!, fromMm, spaceMm, upToMm, stick + 1, shortestMm)
      const lengthMm = jointMm - fromMm
      if (lengthMm > 0 && !exceeds(shortestMm, lengthMm)) {
        pieces.push({ run, fromMm, lengthMm, stick })
        onJoint?.(run, jointMm)
        fromMm = jointMm
      }
      break
    }
  }
  return at < order.length ? null : pieces
}

/**
 * The last place on a run that a piece may reach; a place further back if the piece after it then needs so much less trim
 * that it reaches further.
 *
 * @returns a place before `fromMm` where there is none
 */
function bestJoint(
  run: Run,
  fromMm: number,
  spaceMm: number,
  upToMm: Float64Array,
  next: number,
  shortestMm: number,
): number {
  const furthest = lastJoint(run, run.lengthMm, fromMm, spaceMm, upToMm, next, shortestMm)
  const { trim } = run
  const zone = trim && stretchAt(trim.starts, furthest)
  if (!zone || furthest <= fromMm) return furthest
  const earlier = lastJoint(run, zone.fromMm, fromMm, spaceMm, upToMm, next, shortestMm)
  const gainMm = trim.startMm(furthest) - trim.startMm(earlier)
  const lostMm = furthest - earlier + trim.creepMm(furthest) - trim.creepMm(earlier)
  return exceeds(earlier - fromMm, 0) && !exceeds(shortestMm, earlier - fromMm) && gainMm > lostMm ? earlier : furthest
}

/**
 * The last place, up to `byMm`, that a piece may reach, so that the rest of the run can be made of the following sticks:
 * of the next n of them if it is no longer than their total and no shorter than n times the shortest piece.
 *
 * @returns a place before `fromMm` where there is none
 */
function lastJoint(
  { lengthMm: wholeMm, jointBy, trim }: Run,
  byMm: number,
  fromMm: number,
  spaceMm: number,
  upToMm: Float64Array,
  next: number,
  shortestMm: number,
): number {
  const reach = (limitMm: number) =>
    trim ? trim.reachMm(fromMm, spaceMm, limitMm) : Math.min(fromMm + spaceMm, limitMm)
  let mm = reach(byMm)
  while (mm > fromMm) {
    const placed = jointBy ? jointBy(mm, fromMm) : mm
    const reachedMm = trim ? reach(placed) : placed
    if (exceeds(placed, reachedMm)) {
      mm = reachedMm
      continue
    }
    const restMm = wholeMm - placed
    const trimMm = trim ? trim.creepMm(wholeMm) - trim.creepMm(placed) + trim.startMm(placed) + trim.endMm(wholeMm) : 0
    const rightMm = feasibleRest(restMm + trimMm, upToMm, next, shortestMm) - trimMm
    if (!exceeds(rightMm, restMm)) return placed
    mm = Math.min(wholeMm - rightMm, placed)
  }
  return -1
}

/**
 * The shortest rest of a run, of this length or more, that the following sticks can make; infinite if there is none.
 *
 * @param upToMm the total length of the sticks before each, and of all of them
 */
function feasibleRest(restMm: number, upToMm: Float64Array, next: number, shortestMm: number): number {
  const needed = upToMm[next]! + restMm - LENGTH_SLACK_MM
  for (let last = firstIndexWhere(upToMm.length, (n) => upToMm[n]! >= needed); last < upToMm.length; last++) {
    const leastMm = Math.max(restMm, (last - next) * shortestMm)
    if (!exceeds(leastMm, upToMm[last]! - upToMm[next]!)) return leastMm
  }
  return Number.POSITIVE_INFINITY
}
