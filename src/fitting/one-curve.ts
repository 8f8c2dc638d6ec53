import { rootBetween } from '../bending/numeric/root.ts'
import type { Pose } from '../track/types.ts'
import { type Turn, turnOf } from './turn.ts'
import { type Side, turned } from './words.ts'

/** A straight, one turn, and a straight. */
export interface OneCurve {
  readonly turn: Turn
  readonly side: Side
  readonly angleRad: number
  readonly beforeMm: number
  readonly afterMm: number
}

/** Sine of the angle below which straights have no corner to speak of. */
const PARALLEL = 1e-3
const MOST_RADIUS_MM = 1e6

/**
 * One curve between two straights, as wide as fits: the straights of the two poses meet at a corner A before the goal and
 * B behind the start, and the tangents of the curve reach from there back over q·tan(Δ/2) + k.
 *
 * The widest radius is that whose tangent uses up the shorter of A and B, but for the straights that must be left:
 * q(R)·tan(Δ/2) + k(R) = min(A − before, B − after), without easements R = min(…)/tan(Δ/2).
 *
 * Δ angle of the curve, rad; q and k as in `Turn`. Range: Δ in (0, π); null where the least radius
 * does not fit. Checked in tests/fitting/paths.test.ts.
 */
export function oneCurve(
  side: Side,
  start: Pose,
  goal: Pose,
  leastRadiusMm: number,
  easementMm: number,
  least: { readonly beforeMm: number; readonly afterMm: number },
): OneCurve | null {
  const angleRad = turned(side, start.headingRad, goal.headingRad)
  const sine = Math.sin(goal.headingRad - start.headingRad)
  if (angleRad > Math.PI || Math.abs(sine) < PARALLEL) return null
  const [x, y] = [goal.xMm - start.xMm, goal.yMm - start.yMm]
  const beforeMm = (x * Math.sin(goal.headingRad) - y * Math.cos(goal.headingRad)) / sine
  const afterMm = (y * Math.cos(start.headingRad) - x * Math.sin(start.headingRad)) / sine
  const tan = Math.tan(angleRad / 2)
  const roomMm = Math.min(beforeMm - least.beforeMm, afterMm - least.afterMm)
  // Its arc keeps half of the angle.
  const fromMm = Math.max(leastRadiusMm, (2 * easementMm) / angleRad)
  const over = (radiusMm: number) => reachOf(turnOf(radiusMm, easementMm), tan) - roomMm
  if (over(fromMm) > 1e-9 || fromMm > MOST_RADIUS_MM) return null
  const turn = turnOf(widest(over, fromMm, roomMm, tan, easementMm), easementMm)
  const reach = reachOf(turn, tan)
  return {
    turn,
    side,
    angleRad,
    beforeMm: Math.max(least.beforeMm, beforeMm - reach),
    afterMm: Math.max(least.afterMm, afterMm - reach),
  }
}

function reachOf({ qMm, kMm }: Turn, tan: number): number {
  return qMm * tan + kMm
}

function widest(over: (radiusMm: number) => number, fromMm: number, roomMm: number, tan: number, easementMm: number) {
  const withoutEasements = Math.min(MOST_RADIUS_MM, roomMm / tan)
  if (easementMm === 0 || withoutEasements <= fromMm || over(withoutEasements) <= 0)
    return Math.max(fromMm, withoutEasements)
  return over(fromMm) >= 0 ? fromMm : rootBetween(over, fromMm, withoutEasements)
}
