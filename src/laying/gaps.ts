import { LENGTH_SLACK_MM, longer } from '../measure/counting.ts'
import { firstIndexWhere } from '../measure/search.ts'
import { growthMm } from './expansion.ts'
import type { RailJoint } from './joints.ts'

/** How rail is laid and what the weather does to it. Temperatures are of the rail. */
export interface LaidInWeather {
  /** Joiners in which the rail slides, or rail clamped end to end. */
  readonly joints: 'sliding' | 'clamped'
  /** Clamped rail that is kept from moving altogether. */
  readonly held: boolean
  readonly expansionPerK: number
  readonly layingC: number
  readonly coldestC: number
  readonly hottestC: number
  /** What an insulated joint keeps between its rail ends, hot or cold. */
  readonly insulatorThicknessMm: number
}

/** A rail as far as its growth is concerned. */
export interface GrowingRail {
  readonly lengthMm: number
  readonly closed: boolean
  /** The rail of the plan that goes on beyond an end, and at which of its own ends; null where that is not known. */
  readonly goesOn: Readonly<Record<'start' | 'end', { readonly rail: number; readonly end: 'start' | 'end' } | null>>
}

export interface Gap {
  /** At the temperature of laying. */
  readonly gapMm: number
  readonly gapColdestMm: number
  readonly gapHottestMm: number
}

/**
 * The gap in each joint. Rail that slides or floats keeps its middle where it is, so that half of each neighbour moves to
 * the joint:
 *
 * gap(T) = α·(L₁ + L₂)/2·(T_closed − T)
 *
 * L₁ and L₂ the lengths that move as one on either side: pieces where joiners slide, the stretch between expansion joints,
 * turnouts and ends where rail is clamped. T_closed is the hottest the rail gets, or the laying temperature where that is
 * hotter still. Joints inside a clamped or held length have no gap; an insulated one always keeps its insulator.
 * Beyond an end that joins track of which nothing is known as much is taken to move as on this side.
 *
 * @param joints of all rails
 * @param rails as they are counted, left and right of each track
 * @returns one gap for each joint, in their order; checked in tests/published/expansion.test.ts
 */
export function gapsIn(joints: readonly RailJoint[], rails: readonly GrowingRail[], laid: LaidInWeather): Gap[] {
  const dividers = byRail(
    joints.filter((joint) => divides(joint, laid)),
    rails.length,
  )
  const moving = rails.map((rail, index) => new MovingLengths(rail, dividers[index]!))
  const closedC = Math.max(laid.hottestC, laid.layingC)
  return joints.map((joint) => {
    const movesMm = divides(joint, laid) ? halvesMm(railOf(joint), joint.atMm, rails, moving) : 0
    const keptMm = joint.kind === 'insulated' ? laid.insulatorThicknessMm : 0
    const at = (celsius: number) => keptMm + growthMm(laid.expansionPerK, movesMm, closedC - celsius)
    return { gapMm: at(laid.layingC), gapColdestMm: at(laid.coldestC), gapHottestMm: at(laid.hottestC) }
  })
}

/** Joints by their rail, along it. */
export function byRail<J extends Pick<RailJoint, 'track' | 'rail' | 'atMm'>>(
  joints: readonly J[],
  rails: number,
): J[][] {
  const found = Array.from({ length: rails }, (): J[] => [])
  for (const joint of joints) found[railOf(joint)]!.push(joint)
  return found.map((ofRail) => ofRail.sort((a, b) => a.atMm - b.atMm))
}

function railOf({ track, rail }: Pick<RailJoint, 'track' | 'rail'>): number {
  return 2 * track + (rail === 'left' ? 0 : 1)
}

/** Whether the rails on either side of a joint move by themselves. */
export function divides({ kind }: Pick<RailJoint, 'kind'>, { joints, held }: LaidInWeather): boolean {
  if (held) return false
  return joints === 'sliding' || kind === 'expansion' || kind === 'turnout' || kind === 'join'
}

/** Half of each length that meets at a joint, together. */
function halvesMm(rail: number, atMm: number, rails: readonly GrowingRail[], moving: readonly MovingLengths[]): number {
  const { beforeMm, afterMm } = moving[rail]!.meetingAt(atMm)
  const beyond = (end: 'start' | 'end', ownMm: number) => {
    const other = rails[rail]!.goesOn[end]
    return other ? moving[other.rail]!.atEndMm(other.end) : ownMm
  }
  return ((beforeMm ?? beyond('start', afterMm!)) + (afterMm ?? beyond('end', beforeMm!))) / 2
}

/** The lengths of one rail that move as one. */
class MovingLengths {
  private readonly closed: boolean
  private readonly lengthMm: number
  /** Where they end, ascending; on an open rail its two ends among them. */
  private readonly ends: readonly number[]

  constructor({ lengthMm, closed }: GrowingRail, dividers: readonly { readonly atMm: number }[]) {
    const dividersMm = dividers.map(({ atMm }) => atMm)
    this.closed = closed
    this.lengthMm = lengthMm
    const inside = dividersMm.filter((mm) => longer(mm, 0) && longer(lengthMm, mm))
    const atStart = dividersMm.some((mm) => !longer(mm, 0))
    this.ends = closed ? [...(atStart ? [0] : []), ...inside] : [0, ...inside, lengthMm]
  }

  /** The two lengths that meet at an end of theirs; null where an open rail ends. */
  meetingAt(atMm: number): { beforeMm: number | null; afterMm: number | null } {
    const { ends, closed, lengthMm } = this
    const index = firstIndexWhere(ends.length, (n) => ends[n]! >= atMm - LENGTH_SLACK_MM)
    const hereMm = ends[index]!
    const [previousMm, nextMm] = [ends[index - 1], ends[index + 1]]
    return {
      beforeMm: previousMm === undefined ? (closed ? hereMm + lengthMm - ends.at(-1)! : null) : hereMm - previousMm,
      afterMm: nextMm === undefined ? (closed ? ends[0]! + lengthMm - hereMm : null) : nextMm - hereMm,
    }
  }

  /** The first or the last length of an open rail. */
  atEndMm(end: 'start' | 'end'): number {
    const { ends } = this
    return end === 'start' ? ends[1]! - ends[0]! : ends.at(-1)! - ends.at(-2)!
  }
}
