import type { Leg } from './types.ts'

/** A place on the centre line of a leg: how far ahead of the points, and how far from the line through them. */
export interface LegOffset {
  readonly alongMm: number
  /** Square to the line through the points; positive to the left. */
  readonly offsetMm: number
}

/** No table of offsets is longer; the step doubles until it fits. */
const MOST_ROWS = 24

/** Distances ahead of the points at which offsets are given: every step, and the end of the shorter leg. */
export function offsetPlaces({ end: a }: Leg, { end: b }: Leg, stepMm: number): number[] {
  const endMm = Math.min(a.xMm, b.xMm)
  let step = stepMm
  while (endMm / step > MOST_ROWS) step *= 2
  const count = Math.ceil(endMm / step) - 1
  return [...Array.from({ length: Math.max(0, count) }, (_, n) => (n + 1) * step), endMm]
}

/**
 * Offset of a leg from the line through the points.
 *
 * y = y₀ + (d − x₀)·tan((h + θ)/2), sin θ = sin h + k(d − x₀): the chord of an arc lies at the mean of its headings. d, mm,
 * ahead of the points, within the leg; x₀, y₀, h place (mm) and heading (rad) where the piece there begins, k its
 * curvature, 1/mm. Range: headings below 90°, as turnouts have. Checked in tests/track/turnout/offsets.test.ts.
 */
export function offsetAt({ pieces }: Leg, alongMm: number): LegOffset {
  const { start, startCurvature: k } = pieces.find(({ end }) => end.xMm >= alongMm) ?? pieces.at(-1)!
  const beyondMm = alongMm - start.xMm
  const sinus = Math.sin(start.headingRad) + k * beyondMm
  const headingRad = Math.asin(Math.max(-1, Math.min(1, sinus)))
  return { alongMm, offsetMm: start.yMm + beyondMm * Math.tan((start.headingRad + headingRad) / 2) }
}
