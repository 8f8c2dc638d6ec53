import type { TrackInput } from '../../../src/plan/rows/track.ts'

/**
 * The elevation along a grade line of elevations alone, as the plans that are followed have it: straight from point to
 * point, level before the first and beyond the last, and a parabola over each vertical curve,
 *
 * e(s) = e₀ + g₁·(s − s₀) + (g₂ − g₁)/(2·L)·(s − s₀ + L/2)², |s − s₀| ≤ L/2
 *
 * s₀, e₀ the point, L the length of the curve, g₁ and g₂ the grades before and behind it.
 */
export function elevationBy(gradeLine: NonNullable<TrackInput['gradeLine']>): (stationMm: number) => number {
  const points = gradeLine.map(({ at, elevation, verticalCurve }) => ({ at, e: elevation!, curve: verticalCurve ?? 0 }))
  const gradeFrom = (index: number) => {
    const [a, b] = [points[index], points[index + 1]]
    return a && b ? (b.e - a.e) / (b.at - a.at) : 0
  }
  return (s) => {
    if (points.length === 0) return 0
    const onCurve = points.findIndex(({ at, curve }) => Math.abs(s - at) <= curve / 2)
    if (onCurve >= 0) {
      const { at, e, curve } = points[onCurve]!
      const [before, behind] = [gradeFrom(onCurve - 1), gradeFrom(onCurve)]
      const bent = curve === 0 ? 0 : ((behind - before) / (2 * curve)) * (s - at + curve / 2) ** 2
      return e + before * (s - at) + bent
    }
    const index = points.findLastIndex(({ at }) => at <= s)
    if (index < 0) return points[0]!.e
    return points[index]!.e + gradeFrom(index) * (s - points[index]!.at)
  }
}
