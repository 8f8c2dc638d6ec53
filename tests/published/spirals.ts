import { toRadians } from '../../src/measure/angle.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, ORIGIN, poseAt } from '../track/tracks.ts'

/**
 * A curve that is eased at both ends, with the parts that surveyors name, each measured on the placed track instead of by
 * the textbook's formula: the tangent from its start to the intersection (PI), shift p and k of the circle behind the first
 * spiral, the external, and the spiral's angle. In the unit of the radius.
 */
export function easedCurve({ radius, spiral, angle }: { radius: number; spiral: number; angle: number }) {
  const arcAngle = angle - (spiral / radius) * (180 / Math.PI)
  const placed = placeElements(ORIGIN, [easement(spiral), arc(radius, arcAngle, 'left'), easement(spiral)], false)
  const [first, middle, last] = placed
  const { xMm, yMm, headingRad } = first!.end
  const end = last!.end
  const tangent = end.xMm - end.yMm / Math.tan(toRadians(angle))
  const half = poseAt(placed, last!.toMm / 2)
  return {
    placed,
    spiralRad: headingRad,
    end: first!.end,
    shift: yMm - radius * (1 - Math.cos(headingRad)),
    k: xMm - radius * Math.sin(headingRad),
    tangent,
    tangentOut: end.yMm / Math.sin(toRadians(angle)),
    external: Math.hypot(half.xMm - tangent, half.yMm),
    arcLength: middle!.lengthMm,
    length: last!.toMm,
  }
}

/** Angle at the start of a spiral between its tangent and a point of it, degrees. */
export function deflectionDeg(at: { xMm: number; yMm: number }): number {
  return (Math.atan2(at.yMm, at.xMm) * 180) / Math.PI
}
