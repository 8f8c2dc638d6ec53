import { DEG_PER_RAD } from '../../measure/angle.ts'
import { poseAlong, turnedAlong } from '../../track/clothoid.ts'

/** A peg of an easement; all values are signed, + to the side of positive curvature. */
export interface EasementPeg {
  readonly atMm: number
  readonly curvaturePerMm: number
  /** Along the tangent at the beginning and square off it. */
  readonly alongMm: number
  readonly offsetMm: number
  /** From the tangent at the beginning to the line of sight to the peg. */
  readonly deflectionDeg: number
  /** Heading of the track at the peg, from the tangent at the beginning. */
  readonly turnedDeg: number
  readonly chordFromStartMm: number
  readonly chordFromPreviousMm: number
}

/**
 * Setting out an easement (clothoid) from the tangent at its beginning: x and y along and off it, deflection atan2(y,
 * x), chords straight from the beginning and from peg to peg. To set out from the curve's end, swap the curvatures and
 * measure backwards from there.
 *
 * Range: the line of sight to each peg turned less than 180°. Coordinates as `poseAlong`; checked against the IFC Rail
 * clothoid in tests/bending/setting-out/easement.test.ts.
 *
 * @param stationsMm ascending, from 0 to `lengthMm`
 */
export function easementPegs(
  startCurvature: number,
  endCurvature: number,
  lengthMm: number,
  stationsMm: readonly number[],
): EasementPeg[] {
  const origin = { xMm: 0, yMm: 0, headingRad: 0 }
  const places = stationsMm.map((atMm) => poseAlong(origin, startCurvature, endCurvature, lengthMm, atMm))
  return places.map(({ xMm, yMm }, index) => {
    const atMm = stationsMm[index]!
    const before = places[index - 1] ?? { xMm, yMm }
    return {
      atMm,
      curvaturePerMm: startCurvature + (endCurvature - startCurvature) * (atMm / lengthMm),
      alongMm: xMm,
      offsetMm: yMm,
      deflectionDeg: Math.atan2(yMm, xMm) * DEG_PER_RAD,
      turnedDeg: turnedAlong(startCurvature, endCurvature, lengthMm, atMm) * DEG_PER_RAD,
      chordFromStartMm: Math.hypot(xMm, yMm),
      chordFromPreviousMm: Math.hypot(xMm - before.xMm, yMm - before.yMm),
    }
  })
}
