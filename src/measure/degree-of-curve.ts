import { toDegrees, toRadians } from './angle.ts'

/**
 * Radius of a curve given by its degree, in the unit of the chord: R = C / (2·sin(D/2)).
 *
 * D degree of curve by the chord definition of railways, the angle in degrees at the centre over the chord C, which has
 * to be stated: the usual 100 ft do not fit into a garden. Range: 0 < D ≤ 180, C > 0; with 180° the chord is the
 * diameter. Source: the field books' R = 50 / sin(D/2) for a chord of 100 ft;
 * tests/published/mil-hdbk-1005-6-degree-of-curve.test.ts, tests/measure/degree-of-curve.test.ts.
 */
export function radiusOfDegree(degree: number, chord: number): number {
  return chord / (2 * Math.sin(toRadians(degree) / 2))
}

/**
 * The degree of a curve over a chord: D = 2·asin(C / 2R), the inverse of `radiusOfDegree`. Null where the chord is longer
 * than the diameter.
 */
export function degreeOfRadius(radius: number, chord: number): number | null {
  return chord > 2 * radius ? null : toDegrees(2 * Math.asin(chord / (2 * radius)))
}
