import type { Line } from './line.ts'
import type { CarPlan } from './overhang.ts'

/** Beyond the estimate: curves that are no small part of a circle, and rounding. */
const MARGIN = 1.3
const MORE_MM = 3
/** A car that stands with its body on two straight switch rails reaches no further than this many lengths of it. */
const BEND_LENGTHS = 2

/**
 * No part of a car reaches further from the centre line than this, anywhere along a line: so that what is further off
 * need not be looked at. A corner at a station is e and e + C behind or ahead of the pivots (C truck centres,
 * e = (L − C)/2); where no curvature is more than κ, those are no more than κe²/2 and κ(e + C)²/2 off the tangent there, and
 * the corner on the line through them is no more than κ/2·(e²(1 + e/C) + (e + C)²e/C) off; the middle κC²/8. Longer by a
 * margin, because they are the first terms only. Checked in tests/room/touching.test.ts.
 */
export function mostReachMm({ pieces }: Line, { lengthMm, truckCentresMm, widthMm }: CarPlan): number {
  let curvature = 0
  let bendRad = 0
  for (const [index, { startCurvature, endCurvature, start }] of pieces.entries()) {
    curvature = Math.max(curvature, Math.abs(startCurvature), Math.abs(endCurvature))
    const before = pieces[index - 1]
    if (before) bendRad = Math.max(bendRad, Math.abs(Math.sin((start.headingRad - before.end.headingRad) / 2)) * 2)
  }
  const [C, e] = [truckCentresMm, (lengthMm - truckCentresMm) / 2]
  const corner = (e ** 2 * (1 + e / C) + ((e + C) ** 2 * e) / C) / 2
  const overhangMm = Math.min(lengthMm, MARGIN * curvature * Math.max(corner, C ** 2 / 8))
  return widthMm / 2 + overhangMm + bendRad * BEND_LENGTHS * lengthMm + MORE_MM
}
