import { exceeds, LENGTH_SLACK_MM } from '../measure/counting.ts'
import { firstIndexWhere } from '../measure/search.ts'
import { growthMm } from './expansion.ts'
import type { RailJoint } from './joints.ts'

/** How rail is laid and the temperatures it is exposed to. Temperatures are of the rail. */
export interface LayingConditions {
  /** Joiners in which the rail slides, or rail clamped end to end. */
  readonly joints: 'sliding' | 'clamped'
  /** Clamped rail that is prevented from moving at all. */
  readonly held: boolean
  readonly expansionPerK: number
  readonly layingC: number
  readonly coldestC: number
  readonly hottestC: number
  /** The gap of an insulated joint, hot or cold. */
  readonly insulatorThicknessMm: number
}

/** What the calculation of gaps needs of a rail. */
export interface GrowingRail {
  readonly lengthMm: number
  readonly closed: boolean
  /**
   * The rail of the plan that continues beyond each end, and which of its own ends is there; null where that is not
   * known.
   */
  readonly continuesAs: Readonly<
    Record<'start' | 'end', { readonly rail: number; readonly end: 'start' | 'end' } | null>
  >
  /** The expansion of the rail beyond each end, per kelvin; null where it is that of the plan. */
  readonly expansionBeyond: Readonly<Record<'start' | 'end', number | null>>
  /** Length of the leg of a turnout that lies beyond an end; null where there is none. */
  readonly legBeyondMm?: Readonly<Record<'start' | 'end', number | null>> | undefined
  /** Where turnouts lie along it, which are not cut; none when left out. */
  readonly turnouts?: readonly Along[] | undefined
}

export interface Along {
  readonly fromMm: number
  readonly toMm: number
}

export interface Gap {
  /** At the temperature of laying. */
  readonly gapMm: number
  readonly gapColdestMm: number
  readonly gapHottestMm: number
  /** The parts of the gap at laying that are taken off the piece before and the piece after. */
  readonly offMm: { readonly before: number; readonly after: number }
}

/**
 * The gap in each joint. The middle of rail that slides or floats does not move, so half of each neighbour's growth
 * goes to the joint:
 *
 * gap(T) = (α₁·L₁ + α₂·L₂)/2·(T_closed − T), L = S/(1 + n/2·α·(T_closed − T_laying))
 *
 * α₁ and α₂ are those of the two rails, which differ only where the plan joins rail of another metal. L₁ and L₂ the lengths that move as one on each side, as they are laid, S the space each takes up from joint to joint,
 * without insulators, n how many of its ends have a gap: pieces where joiners slide, the stretch between expansion
 * joints, turnouts and ends where rail is clamped. T_closed is the hottest the rail gets, or the laying temperature
 * where that is hotter. Joints inside a clamped or held length have no gap; an insulated one always keeps its
 * insulator. Beyond an end may lie the leg of a turnout; unknown track there is assumed to be as long as this side. Each length gives up
 * what it needs itself, so that the length of a piece depends only on its S, whatever its neighbours are; only a turnout
 * is laid as it is, L = S, and what it needs is taken off the piece beside it. Between two turnouts nothing is cut.
 *
 * @param joints of all rails
 * @param rails in order, left and right of each track
 * @returns one gap for each joint, in their order; checked in tests/published/expansion.test.ts
 */
export function gapsIn(joints: readonly RailJoint[], rails: readonly GrowingRail[], laid: LayingConditions): Gap[] {
  const dividers = byRail(
    joints.filter((joint) => divides(joint, laid)),
    rails.length,
  )
  const moving = rails.map((rail, index) => new MovingLengths(rail, dividers[index]!, laid))
  const closedC = Math.max(laid.hottestC, laid.layingC)
  return joints.map((joint) => {
    const half = divides(joint, laid) ? halvesOf(railOf(joint), joint.atMm, rails, moving, laid) : NO_HALVES
    const keptMm = joint.kind === 'insulated' ? laid.insulatorThicknessMm : 0
    const at = (celsius: number) => keptMm + (half.before + half.after) * (closedC - celsius)
    const own = (perK: number) => keptMm / 2 + perK * (closedC - laid.layingC)
    const { before, after } = half.turnout
    const offMm = { before: before ? 0 : own(half.before), after: after ? 0 : own(half.after) }
    return {
      gapMm: at(laid.layingC),
      gapColdestMm: at(laid.coldestC),
      gapHottestMm: at(laid.hottestC),
      offMm: {
        before: offMm.before + (after && !before ? own(half.after) : 0),
        after: offMm.after + (before && !after ? own(half.before) : 0),
      },
    }
  })
}

const NO_HALVES = { before: 0, after: 0, turnout: { before: false, after: false } }

/** The gap that a laid piece leaves per millimetre of its length, half at each end: α·(T_closed − T_laying). */
export function openPerMm({ expansionPerK, hottestC, layingC }: LayingConditions): number {
  return growthMm(expansionPerK, 1, Math.max(0, hottestC - layingC))
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

/** Whether the rails on each side of a joint move independently. */
function divides({ kind }: Pick<RailJoint, 'kind'>, { joints, held }: LayingConditions): boolean {
  if (held) return false
  return joints === 'sliding' || kind === 'expansion' || kind === 'turnout' || kind === 'join'
}

/** By how much half of each length that meets at a joint grows, mm per kelvin. */
function halvesOf(
  rail: number,
  atMm: number,
  rails: readonly GrowingRail[],
  moving: readonly MovingLengths[],
  { expansionPerK }: LayingConditions,
) {
  const { beforeMm, afterMm, turnout } = moving[rail]!.meetingAt(atMm)
  const { continuesAs, expansionBeyond, legBeyondMm } = rails[rail]!
  const half = (mm: number, perK = expansionPerK) => growthMm(perK, mm / 2, 1)
  const beyond = (end: 'start' | 'end', ownMm: number) => {
    const other = continuesAs[end]
    const thereMm = legBeyondMm?.[end] ?? (other ? moving[other.rail]!.atEndMm(other.end) : ownMm)
    return half(thereMm, expansionBeyond[end] ?? expansionPerK)
  }
  return {
    before: beforeMm === null ? beyond('start', afterMm!) : half(beforeMm),
    after: afterMm === null ? beyond('end', beforeMm!) : half(afterMm),
    turnout,
  }
}

/** Where lengths that move as one meet, or an open rail ends. */
interface LengthEnd {
  readonly atMm: number
  /** Whether a gap is left here. */
  readonly open: boolean
  /** The thickness of an insulator here. */
  readonly keptMm: number
  /** Whether the rail goes on beyond it in this track. */
  readonly inside: boolean
}

/** The lengths of one rail that move as one. */
class MovingLengths {
  private readonly closed: boolean
  /** Ascending: from end to end of an open rail, or once round from the first to the first of a closed one. */
  private readonly ends: readonly LengthEnd[]
  private readonly openPerMm: number
  /** Of each length: whether it is a turnout. */
  private readonly turnouts: readonly boolean[]

  constructor(
    { lengthMm, closed, turnouts = [] }: GrowingRail,
    dividers: readonly RailJoint[],
    laid: LayingConditions,
  ) {
    const endAt = ({ atMm, kind }: RailJoint, inside: boolean): LengthEnd => ({
      atMm,
      open: true,
      keptMm: kind === 'insulated' ? laid.insulatorThicknessMm : 0,
      inside,
    })
    const between = dividers.filter(({ atMm }) => exceeds(atMm, 0) && exceeds(lengthMm, atMm))
    const atStart = dividers.find(({ atMm }) => !exceeds(atMm, 0))
    const atEnd = dividers.find(({ atMm }) => !exceeds(lengthMm, atMm))
    const inside = (closed && atStart ? [atStart, ...between] : between).map((joint) => endAt(joint, true))
    // Rail beyond an open rail's end is not cut for the gap there.
    const outer = (joint: RailJoint | undefined, atMm: number) =>
      joint ? { ...endAt(joint, false), atMm } : { atMm, open: false, keptMm: 0, inside: false }
    this.closed = closed
    this.openPerMm = openPerMm(laid)
    this.ends = closed
      ? inside.concat(inside.slice(0, 1).map((end) => ({ ...end, atMm: end.atMm + lengthMm })))
      : [outer(atStart, 0), ...inside, outer(atEnd, lengthMm)]
    const isSame = (a: number, b: number) => Math.abs(a - b) <= LENGTH_SLACK_MM
    this.turnouts = this.ends
      .slice(1)
      .map(({ atMm }, index) =>
        turnouts.some(({ fromMm, toMm }) => isSame(fromMm, this.ends[index]!.atMm) && isSame(toMm, atMm)),
      )
  }

  /** The two lengths that meet at an end, as they are laid; null where an open rail ends. */
  meetingAt(atMm: number) {
    const { ends } = this
    const index = firstIndexWhere(ends.length, (n) => ends[n]!.atMm >= atMm - LENGTH_SLACK_MM)
    const [before, after] = [this.indexOf(index - 1), this.indexOf(index)]
    return {
      beforeMm: before === null ? null : this.laidMm(before),
      afterMm: after === null ? null : this.laidMm(after),
      turnout: { before: this.isTurnout(before), after: this.isTurnout(after) },
    }
  }

  /** The first or the last length of an open rail, as it is laid. */
  atEndMm(end: 'start' | 'end'): number {
    return this.laidMm(end === 'start' ? 0 : this.ends.length - 2)
  }

  /** Of a length, or of that which comes round to it on a closed rail; null beyond the ends of an open one. */
  private indexOf(length: number): number | null {
    const lengths = this.turnouts.length
    if (length >= 0 && length < lengths) return length
    return this.closed ? (length + lengths) % lengths : null
  }

  private isTurnout(length: number | null): boolean {
    return length !== null && this.turnouts[length]!
  }

  private laidMm(index: number): number {
    const [from, to] = [this.ends[index]!, this.ends[index + 1]!]
    if (this.isTurnout(index)) return to.atMm - from.atMm
    const offMm = this.offAt(from, index - 1) + this.offAt(to, index + 1)
    const placeMm = Math.max(0, to.atMm - from.atMm - offMm)
    return placeMm / (1 + ((Number(from.open) + Number(to.open)) / 2) * this.openPerMm)
  }

  /** What is taken off a length at an end besides the gap it needs itself, by the length beside it. */
  private offAt({ keptMm, inside }: LengthEnd, beside: number): number {
    const neighbour = this.indexOf(beside)
    if (!this.isTurnout(neighbour)) return inside ? keptMm / 2 : keptMm
    return keptMm + (this.openPerMm / 2) * this.laidMm(neighbour!)
  }
}
