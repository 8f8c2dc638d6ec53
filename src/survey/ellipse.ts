import { DEG_PER_RAD } from '../measure/angle.ts'

export interface ErrorEllipse {
  /** Half axes, one standard deviation. */
  readonly majorMm: number
  readonly minorMm: number
  /** Of the longer axis, counter-clockwise from +x, in [0, 180). */
  readonly directionDeg: number
  /** √(σx² + σy²). */
  readonly radiusMm: number
}

/**
 * The error ellipse of a place from its variances xx and yy and covariance xy, mm²:
 *
 * a², b² = (xx + yy)/2 ± √(((xx − yy)/2)² + xy²),  tan 2t = 2·xy/(xx − yy)
 *
 * The place lies inside with a probability of 39 %, and within 2.45 times its size with 95 % (two dimensions, normal
 * errors). Source: surveying textbooks; checked in tests/survey/parts.test.ts.
 */
export function ellipseOf(xx: number, yy: number, xy: number): ErrorEllipse {
  const middle = (xx + yy) / 2
  const half = Math.hypot((xx - yy) / 2, xy)
  const directionDeg = (Math.atan2(2 * xy, xx - yy) / 2) * DEG_PER_RAD
  return {
    majorMm: Math.sqrt(middle + half),
    minorMm: Math.sqrt(Math.max(0, middle - half)),
    directionDeg: directionDeg < 0 ? directionDeg + 180 : directionDeg + 0,
    radiusMm: Math.sqrt(xx + yy),
  }
}
