import { poseAlong } from '../track/clothoid.ts'
import { NOWHERE } from './motion.ts'

/**
 * A turn from straight to straight: an arc, between two easements of equal length where there are easements.
 *
 * Seen from where it begins, heading along u with the normal n to its inside, the centre of the arc lies at k·u + q·n,
 * and seen from where it ends at −k·u′ + q·n′, however far it turns. So turns with easements go together like plain
 * ones, with q instead of the radius and k behind and before them (the shift q − R and the distance k of a transition
 * curve in railway setting-out; in path planning T. Fraichard and A. Scheuer, IEEE Trans. Robotics 20, 2004).
 *
 * q = y + R·cos τ, k = x − R·sin τ, τ = e/(2R)
 *
 * R radius and e length of each easement, mm; (x, y) the end of the easement; τ what it turns, rad.
 * Range: R > 0, e ≥ 0; without easements q = R and k = 0. Checked in tests/fitting/turn.test.ts.
 */
export interface Turn {
  readonly radiusMm: number
  readonly easementMm: number
  /** What both easements turn together; the arc turns the rest. */
  readonly easedRad: number
  readonly kMm: number
  readonly qMm: number
}

export function turnOf(radiusMm: number, easementMm: number): Turn {
  if (easementMm === 0) return { radiusMm, easementMm, easedRad: 0, kMm: 0, qMm: radiusMm }
  const { xMm, yMm, headingRad } = poseAlong(NOWHERE, 0, 1 / radiusMm, easementMm, easementMm)
  return {
    radiusMm,
    easementMm,
    easedRad: 2 * headingRad,
    kMm: xMm - radiusMm * Math.sin(headingRad),
    qMm: yMm + radiusMm * Math.cos(headingRad),
  }
}

/** The largest radius a turn is widened to for its easements to fit. */
const WIDEST_MM = 1e6

/**
 * The turn with a radius so much larger that its arc keeps half of an angle that its easements would use up (e/R = Δ/2);
 * null where that takes too large a radius.
 */
export function widened(turn: Turn, angleRad: number): Turn | null {
  const radiusMm = (2 * turn.easementMm) / angleRad
  return radiusMm > WIDEST_MM ? null : turnOf(radiusMm, turn.easementMm)
}

/** Whether easements and arc fit into the angle. */
export function fitsInto({ easedRad }: Turn, angleRad: number): boolean {
  return angleRad > easedRad + (easedRad > 0 ? 1e-6 : 0)
}
