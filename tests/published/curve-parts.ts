import { midOrdinateMm } from '../../src/bending/ordinates.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import type { Pose } from '../../src/track/types.ts'
import { poseAt } from '../track/tracks.ts'

/**
 * The parts of a simple curve as the field books name them, each measured on the placed track instead of by the
 * textbook's formula: T tangent to the intersection (PI), L arc, E external, M middle ordinate, LC long chord.
 */
export function simpleCurve(arc: Extract<ElementInput, { kind: 'arc' }>) {
  const start: Pose = { xMm: 0, yMm: 0, headingRad: 0 }
  const placed = placeElements(start, [arc], false)
  const [curve] = placed
  const { end, lengthMm } = curve!
  // The end tangent run backwards meets the start tangent, the x axis, at the PI.
  const tangent = end.xMm - end.yMm / Math.tan(end.headingRad)
  const middle = poseAt(placed, lengthMm / 2)
  const longChord = Math.hypot(end.xMm, end.yMm)
  return {
    placed,
    tangent,
    length: lengthMm,
    external: Math.hypot(middle.xMm - tangent, middle.yMm),
    middleOrdinate: midOrdinateMm(arc.radius, longChord)!,
    longChord,
  }
}

/** Angle between the start tangent and the chord to a station, rad. */
export function deflectionAt(placed: ReturnType<typeof placeElements>, at: number): number {
  const { xMm, yMm } = poseAt(placed, at)
  return Math.atan2(yMm, xMm)
}
