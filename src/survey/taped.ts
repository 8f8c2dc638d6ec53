import type { Point } from '../track/sample.ts'
import type { Reading } from './net.ts'

/**
 * A distance by tape reduced to the level, mm: d = √(L² − Δz²) along a slope, L itself otherwise; L the reading, Δz the
 * difference in height of its ends. Null where an elevation is unknown or the ends are further apart in height than the
 * tape says. Source: Pythagoras; checked in tests/survey/closed-forms.test.ts.
 */
export function horizontalMm(
  { measuredMm, isSlope, from, to }: Pick<Reading, 'measuredMm' | 'isSlope' | 'from' | 'to'>,
  elevationsMm: readonly (number | null)[],
): number | null {
  if (!isSlope) return measuredMm
  const [a, b] = [elevationsMm[from], elevationsMm[to]]
  if (a == null || b == null || Math.abs(b - a) > measuredMm) return null
  return Math.sqrt((measuredMm - (b - a)) * (measuredMm + (b - a)))
}

/** The square of how far a distance is off between two places, in its standard deviations. */
export function misfit(reading: Reading, a: Point, b: Point, elevationsMm: readonly (number | null)[]): number {
  const offMm = Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm) - horizontalMm(reading, elevationsMm)!
  return (offMm / reading.errorMm) ** 2
}
