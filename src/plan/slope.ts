import { elementLengthMm } from './elements.ts'
import type { GradePoint, TrackInput } from './rows/track.ts'

/** A track as far as its length along the slope is concerned. */
type Sloping = Pick<TrackInput, 'elements' | 'start'> & { readonly gradeLine?: readonly GradePoint[] | undefined }

/**
 * Length of a track along its slope, mm: each stretch of constant grade is √(s² + z²) long, s its level length and z its
 * rise. A start that gives an elevation is a point of the grade line at station 0. Never shorter than the level length,
 * also for points out of order. Checked in tests/plan/slope.test.ts.
 */
export function slopeLengthMm({ elements, start, gradeLine = [] }: Sloping): number {
  const levelMm = elements.reduce((sum, element) => sum + elementLengthMm(element), 0)
  let slopeMm = levelMm
  let before = start?.elevation === undefined ? undefined : { at: 0, elevation: start.elevation }
  for (const point of gradeLine) {
    if (before && before.at < levelMm && point.at > before.at) {
      const alongMm = Math.min(point.at, levelMm) - before.at
      const grade = (point.elevation - before.elevation) / (point.at - before.at)
      slopeMm += alongMm * (Math.hypot(1, grade) - 1)
    }
    before = point
  }
  return slopeMm
}
