import type { GradeLinePoint } from '../../src/plan/grade-line.ts'
import { elevationOn, type GradeStretch, gradesOn, profileOf } from '../../src/track/grade.ts'

/** Elevation of a grade line at a station. */
export function elevationAt(points: readonly GradeLinePoint[], atMm: number): number {
  return elevationOn(profileOf(points), atMm)
}

/** The grades of a track of this length on a grade line. */
export function gradesAlong(points: readonly GradeLinePoint[], lengthMm: number): GradeStretch[] {
  return gradesOn(profileOf(points), lengthMm)
}
