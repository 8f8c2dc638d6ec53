import { elementLengthMm } from './elements.ts'
import { gradeNodes } from './grade-line.ts'
import type { GradePoint, TrackInput } from './rows/track.ts'

/** A track as far as its length along the slope is concerned. */
type Sloping = Pick<TrackInput, 'elements' | 'start'> & { readonly gradeLine?: readonly GradePoint[] | undefined }

/**
 * Length of a track along its slope, mm: each stretch of constant grade is √(s² + z²) long, s its level length and z its
 * rise; vertical curves make it a little shorter. A start that gives an elevation is a point of the grade line at station
 * 0. Never shorter than the level length, also for points out of order. Checked in tests/plan/slope.test.ts.
 */
export function slopeLengthMm({ elements, start, gradeLine = [] }: Sloping): number {
  const levelMm = elements.reduce((sum, element) => sum + elementLengthMm(element), 0)
  const nodes = gradeNodes(gradeLine, start?.elevation)
  let slopeMm = levelMm
  for (const [index, { atMm, elevationMm, grade }] of nodes.entries()) {
    const next = nodes[index + 1]
    if (atMm >= levelMm || (next && next.atMm <= atMm)) continue
    const gradeHere = next ? (next.elevationMm - elevationMm) / (next.atMm - atMm) : (grade ?? 0)
    slopeMm += (Math.min(next?.atMm ?? levelMm, levelMm) - atMm) * (Math.hypot(1, gradeHere) - 1)
  }
  return slopeMm
}
