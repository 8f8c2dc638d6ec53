import { toDegrees } from '../../measure/angle.ts'
import type { Element } from '../../plan/rows/track.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import { turnoutFigures } from '../../track/turnout/figures.ts'
import type { TurnoutRail } from '../../track/turnout/rails.ts'
import { plainTieMm, turnoutTies } from '../../track/turnout/ties.ts'
import type { Pose } from '../../track/types.ts'
import type { ElementAnswer } from '../answer.ts'
import { turnoutName } from '../bill/turnouts.ts'
import { gapsInBuilt } from '../cutting/gaps-in-built.ts'
import type { Plan } from '../plan.ts'
import type { TurnoutAnswer } from './answer.ts'
import { isBought } from './bought-turnouts.ts'
import { railsOf } from './built-rails.ts'
import type { LaidTrack } from './laid-track.ts'
import { poseAnswer } from './pose-answer.ts'
import type { LaidTurnout } from './turnouts-of-plan.ts'

/** What an answer says of a turnout or crossing beyond what it says of every element. */
export function specialAnswer(
  element: Element,
  track: LaidTrack,
  plan: Plan,
): Pick<ElementAnswer, 'turnout' | 'crossing'> {
  if (element.kind === 'crossing') return { crossing: { name: element.name, angleDeg: element.angle } }
  if (element.kind !== 'turnout') return {}
  const turnout = track.turnouts.find(({ name }) => name === element.name)!
  const { geometry, ends, enters, leaves } = turnout
  const type = plan.turnoutTypes.find(({ id }) => id === element.type)!
  const pose = (end: Pose) => poseAnswer(end, track)
  return {
    turnout: {
      ...turnoutFigures(geometry, plan.gauge),
      name: element.name,
      type: element.type,
      hand: type.hand,
      enters,
      leaves: enters === 'points' ? (leaves ?? 'through') : 'points',
      points: pose(ends.points),
      throughEnd: pose(ends.through),
      divergingEnd: pose(ends.diverging),
      frog: onSheet(geometry.frog, turnout),
      ties: turnoutTies(geometry, plan.supplies.ties.spacing, plainTieMm(plan.gauge)),
      ...(track.state === 'new' &&
        !isBought(type) && { rails: railsAnswer(railsOf(turnout, track, plan), type, plan) }),
      onBillAs: track.state === 'new' && isBought(type) ? turnoutName(type) : null,
    },
  }
}

function railsAnswer(
  rails: readonly TurnoutRail[],
  type: TurnoutType,
  plan: Plan,
): NonNullable<TurnoutAnswer['rails']> {
  const gaps = gapsInBuilt(rails, type, plan)
  return rails.map(({ parts, leg, side, fromMm, lengthMm, kinks }, index) => ({
    parts: [...parts],
    leg,
    side,
    fromMm,
    lengthMm,
    ...(gaps[index]!.aheadMm !== null && { gapAheadMm: gaps[index]!.aheadMm }),
    kinks: kinks.map(({ atMm, turnRad }) => ({
      atMm: Math.max(0, atMm - gaps[index]!.offMm.start),
      angleDeg: toDegrees(Math.abs(turnRad)),
      turn: turnRad > 0 ? 'left' : 'right',
    })),
  }))
}

/** A place of the turnout's own sheet on that of the plan. */
function onSheet(
  { xMm, yMm }: { readonly xMm: number; readonly yMm: number },
  { ends: { points } }: LaidTurnout,
): { xMm: number; yMm: number } {
  const along = points.headingRad - Math.PI
  const cos = Math.cos(along)
  const sin = Math.sin(along)
  return { xMm: points.xMm + xMm * cos - yMm * sin, yMm: points.yMm + xMm * sin + yMm * cos }
}
