import { DEG_PER_RAD } from '../../measure/angle.ts'
import type { Element } from '../../plan/rows/track.ts'
import { closureOf, type HeldEnd } from '../../track/closure.ts'
import { levelAt, profileAnswer } from '../../track/profile.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { ElementAnswer, TrackAnswer } from '../answer.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from './laid-track.ts'
import { poseAnswer } from './pose-answer.ts'
import { specialAnswer } from './turnout-answer.ts'

export type TrackCounts = Pick<TrackAnswer, 'ties' | 'tieSpacingMm' | 'jointTies' | 'joints'>

/** One track for the answer. */
export function trackAnswer(
  track: LaidTrack,
  elements: readonly Element[],
  counts: TrackCounts,
  plan: Plan,
): TrackAnswer {
  const turnedRad = track.placed.reduce((sum, element) => sum + element.turnedRad, 0)
  return {
    name: track.name,
    label: track.label,
    state: track.state,
    lengthMm: track.lengthMm,
    turnedDeg: turnedRad * DEG_PER_RAD,
    rails: { left: { lengthMm: track.rails.left.lengthMm }, right: { lengthMm: track.rails.right.lengthMm } },
    start: { ...poseAnswer(track.start, track), elevationMm: track.startElevationMm },
    end: { ...poseAnswer(track.end, track), elevationMm: track.endElevationMm },
    closure: track.heldAt ? closureAnswer(track, track.heldAt) : null,
    grades: track.grades.map(({ fromMm, toMm, grade, endGrade }) => ({
      fromMm,
      toMm,
      gradePct: grade * 100,
      ...(endGrade !== undefined && { endGradePct: endGrade * 100 }),
    })),
    profile: profileAnswer(track.profile, track.grades, track),
    levels: track.levelsAtMm.map((atMm) => levelAt(track.profile, atMm)),
    ...counts,
    elements: track.placed.map((element, index) => ({
      ...elementAnswer(element, track),
      ...specialAnswer(elements[index]!, track, plan),
    })),
  }
}

function closureAnswer(
  { end, endElevationMm }: LaidTrack,
  { pose, hasHeading, elevationMm }: HeldEnd,
): TrackAnswer['closure'] {
  const { gapMm, headingDeg } = closureOf(pose, end)
  return {
    gapMm,
    headingDeg: hasHeading ? headingDeg : null,
    elevationMm: elevationMm === null ? null : endElevationMm - elevationMm,
  }
}

function elementAnswer(element: PlacedElement, track: LaidTrack): ElementAnswer {
  const { rails } = track
  const { index, kind, fromMm, toMm, lengthMm, startCurvature, endCurvature, turnedRad } = element
  const arc = kind === 'arc'
  const isSpecial = kind === 'turnout' || kind === 'crossing'
  const rail = (side: 'left' | 'right') => ({
    lengthMm: rails[side].elements[index]!.lengthMm,
    radiusMm: arc ? Math.abs(1 / startCurvature - rails[side].offsetLeftMm) : null,
  })
  return {
    index,
    kind,
    label: element.label ?? null,
    fromMm,
    toMm,
    lengthMm,
    radiusMm: arc ? radiusOf(startCurvature) : null,
    ...(kind === 'easement' && { startRadiusMm: radiusOf(startCurvature), endRadiusMm: radiusOf(endCurvature) }),
    angleDeg: (arc ? Math.abs(turnedRad) : turnedRad) * DEG_PER_RAD,
    turn: kind === 'tangent' || (isSpecial && turnedRad === 0) ? null : turnedRad < 0 ? 'right' : 'left',
    rails: { left: rail('left'), right: rail('right') },
    start: poseAnswer(element.start, track),
    end: poseAnswer(element.end, track),
  }
}

function radiusOf(curvature: number): number | null {
  return curvature === 0 ? null : 1 / Math.abs(curvature)
}
