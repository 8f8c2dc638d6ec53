import type { RailJoint } from '../../laying/joints.ts'
import { TAKES_JOINER } from '../../laying/joints.ts'
import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { sum } from '../../measure/sum.ts'
import type { WholePlan } from '../../plan/rows/plan.ts'
import type { Turn } from '../../plan/rows/track.ts'
import { frogSideOf, opposite, TURNOUT_LEGS } from '../../track/turnout/rails.ts'
import { legOf } from '../../track/turnout/special-track.ts'
import { isBought } from '../track/bought-turnouts.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { LaidTurnout } from '../track/turnouts-of-plan.ts'

/** What the live frogs of a track take where trains take their power from the rails. */
export interface LiveFrogs {
  /** Names of their turnouts. */
  readonly turnouts: readonly string[]
  readonly insulatedJoiners: number
  /** Plain joiners in whose place they are. */
  readonly joinersReplaced: number
}

const NONE: LiveFrogs = { turnouts: [], insulatedJoiners: 0, joinersReplaced: 0 }

type Leg = (typeof TURNOUT_LEGS)[number]

/**
 * A live frog is one piece of metal with its wing and point rails. It is fed by itself, so it is parted from the rails
 * behind it where both legs go on, and one that is built by hand also from its two closure rails; a bought one is parted
 * from those by its maker. Common practice, no source.
 *
 * @param joints of each track
 */
export function liveFrogs(
  laid: readonly LaidTrack[],
  { turnoutTypes, power }: Pick<WholePlan, 'turnoutTypes' | 'power'>,
  joints: readonly (readonly RailJoint[])[],
): LiveFrogs[] {
  const live = new Map(turnoutTypes.filter(({ frog }) => frog === 'live').map((type) => [type.id, type]))
  if (live.size === 0 || power === null || power === 'none') return laid.map(() => NONE)
  return laid.map((track, index) => {
    const own = track.turnouts.filter(({ type }) => live.has(type))
    const parted = own.map((turnout) => {
      const type = live.get(turnout.type)!
      const ends = TURNOUT_LEGS.flatMap((leg) =>
        jointsBehind(turnout, leg, frogSideOf(type.hand, leg), index, laid, joints),
      )
      const behind = ends.filter(({ kind }) => TAKES_JOINER.has(kind)).length
      if (isBought(type)) return { insulated: behind, replaced: behind }
      const atToes = turnout.geometry.toeLengthMm > 0 && type.toeLength !== null ? CLOSURE_RAILS : 0
      return { insulated: behind + CLOSURE_RAILS, replaced: behind + atToes }
    })
    return {
      turnouts: own.map(({ name }) => name),
      insulatedJoiners: sum(parted.map(({ insulated }) => insulated)),
      joinersReplaced: sum(parted.map(({ replaced }) => replaced)),
    }
  })
}

const CLOSURE_RAILS = 2

/** The joint at the end of a leg, on the rail of the frog; none where nothing goes on there. */
function jointsBehind(
  turnout: LaidTurnout,
  leg: Leg,
  side: Turn,
  host: number,
  laid: readonly LaidTrack[],
  joints: readonly (readonly RailJoint[])[],
): RailJoint[] {
  const at = (track: number, stationMm: number, rail: Turn) =>
    joints[track]!.filter((each) => each.rail === rail && Math.abs(each.stationMm - stationMm) <= LENGTH_SLACK_MM)
  if (legOf(turnout) === leg) {
    const fromPoints = turnout.enters === 'points'
    return at(host, fromPoints ? turnout.toMm : turnout.fromMm, fromPoints ? side : opposite(side))
  }
  return laid.flatMap(({ legs, lengthMm }, track) => [
    ...(legs.start?.turnout === turnout.name && legs.start.leg === leg ? at(track, 0, side) : []),
    ...(legs.end?.turnout === turnout.name && legs.end.leg === leg ? at(track, lengthMm, opposite(side)) : []),
  ])
}
