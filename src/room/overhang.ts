import { type Answer, component, length } from '../plan/fields/answer.ts'

/** A car on two trucks, from above. */
export interface CarPlan {
  readonly lengthMm: number
  /** Distance between the pivots of its trucks. */
  readonly truckCentresMm: number
  readonly widthMm: number
}

export const OVERHANG = component('Overhang', 'How far a car reaches over the sides of a curve.', {
  radiusMm: length('Radius of the centre line, mm.'),
  insideMm: length(
    'How far the middle of the car is off the centre line, to the inside, mm; its side is half its width further.',
  ),
  endMm: length(
    'How far the middle of its ends is off the centre line, to the outside, mm; negative if the trucks are so far apart that the ends stay inside.',
  ),
  outsideCornerMm: length('How far its corners reach to the outside beyond half its width, mm.'),
  insideReachMm: length('Distance from the centre line to the side of the car at its middle, mm.'),
  outsideReachMm: length('Distance from the centre line to its outside corners, mm.'),
})

export type Overhang = Answer<typeof OVERHANG>

/**
 * Overhang of a car whose truck pivots are on the centre line of an arc that is longer than the car:
 *
 * d = √(R² − (C/2)²)
 * inside mid-car   R − d
 * outside end      √(d² + (L/2)²) − R
 * outside corner   √((d + W/2)² + (L/2)²) − R − W/2
 *
 * R radius of the centre line, C truck centres, L length and W width of the body, all mm; d is the distance from the
 * centre of the curve to the line of the car. Range: 0 < C < 2R, C ≤ L, W > 0. The usual approximations C²/8R and
 * (L² − C²)/8R (Chandra and Agarwal, Railway Engineering) are the first terms of the first two.
 * Checked in tests/published/overhang.test.ts, and by placing cars on a circle in tests/room/overhang.test.ts.
 */
export function overhangOn(radiusMm: number, { lengthMm, truckCentresMm, widthMm }: CarPlan): Overhang {
  const [L, C, W, R] = [lengthMm, truckCentresMm, widthMm, radiusMm]
  // Each difference of two long distances is their squares' difference over their sum, so that no digit is lost.
  const d = Math.sqrt((R - C / 2) * (R + C / 2))
  const insideMm = C ** 2 / 4 / (R + d)
  const ends = ((L - C) * (L + C)) / 4
  const outsideCornerMm = (ends - W * insideMm) / (Math.hypot(d + W / 2, L / 2) + R + W / 2)
  return {
    radiusMm,
    insideMm,
    endMm: ends / (Math.hypot(d, L / 2) + R),
    outsideCornerMm,
    insideReachMm: insideMm + W / 2,
    outsideReachMm: outsideCornerMm + W / 2,
  }
}
