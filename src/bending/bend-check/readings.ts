import { toDegrees } from '../../measure/angle.ts'
import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { radiusFromMidOrdinateMm } from '../ordinates.ts'
import type { Verdict } from './types.ts'

/**
 * Radius of an ordinate, signed like it; null where it is straight (or so nearly that the radius is not finite).
 */
export function radiusOfMm(chordMm: number, ordinateMm: number): number | null {
  const radius = radiusFromMidOrdinateMm(chordMm, ordinateMm)
  return radius !== null && Number.isFinite(radius) ? radius : null
}

/**
 * The smallest and the largest radius a reading may mean if it is wrong by up to the resolution, signed like
 * the reading. The largest is null where the rail may be straight or bent the other way. No ordinate is larger than
 * half the chord, a half circle.
 */
export function radiusBandMm(chordMm: number, readingMm: number, resolutionMm: number) {
  const sign = readingMm < 0 ? -1 : 1
  const most = Math.min(chordMm / 2, Math.abs(readingMm) + resolutionMm)
  const least = Math.abs(readingMm) - resolutionMm
  return {
    radiusLowMm: radiusOfMm(chordMm, sign * most),
    radiusHighMm: least > 0 ? radiusOfMm(chordMm, sign * least) : null,
  }
}

/**
 * The radius R for which Σ (reading − M(R))² is least, M(R) being the exact middle ordinate. M alone depends on R, so
 * the sum is least where M(R) is the mean of the readings: R = C²/(8·mean) + mean/2. Signed; null when the mean is
 * straight or there is no reading. Derived; tests/bending/bend-check/readings.test.ts.
 */
export function bestFitRadiusMm(chordMm: number, readingsMm: readonly (number | null)[]): number | null {
  const read = readingsMm.filter((reading) => reading !== null)
  if (read.length === 0) return null
  return radiusOfMm(chordMm, read.reduce((sum, reading) => sum + reading, 0) / read.length)
}

/** Good within the resolution or the tolerance of the target, whichever is larger; otherwise how it is wrong. */
export function verdictOn(readingMm: number, targetMm: number, resolutionMm: number, tolerancePct: number): Verdict {
  const allowedMm = Math.max(resolutionMm, (tolerancePct / 100) * Math.abs(targetMm))
  const deviationMm = readingMm - targetMm
  if (!exceeds(Math.abs(deviationMm), allowedMm)) return 'good'
  return !isStraight(targetMm) && deviationMm < 0 === targetMm > 0 ? 'bend-more' : 'ease'
}

/**
 * How far the track turns over its stations when each was read on a chord of two spacings: at a station the two halves
 * of the string meet at 2·asin(v/s), v ordinate, s spacing. Σ of these, degrees, signed. Source: US Army TR 671 ch. 3
 * (there as 2v/s); tests/published/tr-671-string-lining.test.ts.
 */
export function turnedDeg(readingsMm: readonly number[], spacingMm: number): number {
  const turnedRad = readingsMm.reduce((sum, v) => sum + 2 * Math.asin(Math.max(-1, Math.min(1, v / spacingMm))), 0)
  return toDegrees(turnedRad)
}

/** An ordinate that is 0 except for rounding. */
export function isStraight(ordinateMm: number): boolean {
  return Math.abs(ordinateMm) <= LENGTH_SLACK_MM
}

/** Stations of the longest stretch of equal targets that are not 0, the sharpest of these; empty when there is none. */
export function longestBody(targetsMm: readonly number[]): number[] {
  let best: number[] = []
  for (let from = 0, to = 0; from < targetsMm.length; from = to) {
    const target = targetsMm[from]!
    while (to < targetsMm.length && targetsMm[to] === target) to++
    if (isStraight(target) || to - from < best.length) continue
    if (to - from === best.length && Math.abs(target) <= Math.abs(targetsMm[best[0]!]!)) continue
    best = Array.from({ length: to - from }, (_, n) => from + n)
  }
  return best
}
