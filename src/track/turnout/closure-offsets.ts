import { besideLeg } from './beside-leg.ts'
import { poseOnLeg } from './ties.ts'
import type { TurnoutGeometry } from './types.ts'

/** A place of the gauge line of the curved closure rail. */
export interface ClosureOffset {
  /** Ahead of the points, along the straight through them. */
  readonly alongMm: number
  /** Square to it, from the gauge line of the stock rail that the switch rail lies against, as that runs at the points. */
  readonly offsetMm: number
}

/** The closure is set out at its ends and where these divide it. */
const PARTS = 4

/**
 * The gauge line of the closure rail of the diverging leg, from heel to toe, at its ends and quarter points.
 *
 * x = p + R(sin θ − sin S), y = h + R(cos S − cos θ), θ = S + n/4·(F − S)
 *
 * for a straight frog: R radius of the outer gauge line, p and h length and spread of the switch, S and F angles of heel
 * and frog. Worked out along the leg, so that it holds for every form. Checked against NMRA RP-12.7 in
 * tests/published/nmra-rp-12-7-turnouts.test.ts and in closed form in tests/track/turnout/closure-offsets.test.ts.
 */
export function closureOffsets(
  { legs: { diverging }, frog, pointLengthMm, toeLengthMm }: TurnoutGeometry,
  gaugeMm: number,
): ClosureOffset[] {
  const away = diverging.end.yMm > 0 ? 1 : -1
  // Without the straight switch rail, which may lie in another direction than the curve begins.
  const pieces = diverging.pieces.slice(pointLengthMm === 0 ? 0 : 1)
  const heelMm = pointLengthMm === 0 ? 0 : diverging.pieces[0]!.lengthMm
  const toeMm = besideLeg(diverging, frog).stationMm - toeLengthMm
  return Array.from({ length: PARTS + 1 }, (_, n) => {
    const { xMm, yMm, headingRad } = poseOnLeg({ ...diverging, pieces }, (n / PARTS) * (toeMm - heelMm))
    const half = (away * gaugeMm) / 2
    return {
      alongMm: xMm + half * Math.sin(headingRad),
      offsetMm: away * (yMm - half * Math.cos(headingRad)) + gaugeMm / 2,
    }
  })
}
