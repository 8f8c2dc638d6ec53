import { firstIndexWhere } from '../measure/search.ts'
import { type GradeLinePoint, type GradeNode, gradeNodes } from '../plan/grade-line.ts'

/** A grade between two stations: rise over level run, signed, rising along the track positive. */
export interface GradeStretch {
  readonly fromMm: number
  readonly toMm: number
  /** At its start, and all along it unless it is a vertical curve. */
  readonly grade: number
  /** Of a vertical curve: the grade at its end, to which it changes evenly. */
  readonly endGrade?: number
}

/** The elevations of a track: straight grades and vertical curves, in order, from its start on. */
export type Profile = readonly ProfileStretch[]

interface ProfileStretch extends GradeStretch {
  readonly fromElevationMm: number
  readonly toElevationMm: number
}

/**
 * The profile of a grade line. Between two points the grade is (z2 − z1)/(s2 − s1), z elevations and s stations; a vertical
 * curve replaces half its length of each of the two grades that meet at its point. Beyond the last point the track is
 * level, or on the grade given there. The last stretch has no end.
 *
 * @param startElevationMm of the start of the track, where it is given
 */
export function profileOf(points: readonly GradeLinePoint[], startElevationMm?: number | null): Profile {
  const nodes = gradeNodes(points, startElevationMm)
  const stretches: ProfileStretch[] = []
  let gradeBefore: number | null = null
  for (const [index, node] of nodes.entries()) {
    const next = nodes[index + 1]
    const grade = next ? gradeBetween(node, next) : (node.grade ?? 0)
    const halfMm = gradeBefore === null ? 0 : node.curveMm / 2
    if (halfMm > 0)
      stretches.push({
        fromMm: node.atMm - halfMm,
        toMm: node.atMm + halfMm,
        grade: gradeBefore!,
        endGrade: grade,
        fromElevationMm: node.elevationMm - gradeBefore! * halfMm,
        toElevationMm: node.elevationMm + grade * halfMm,
      })
    const fromMm = node.atMm + halfMm
    const toMm = next ? next.atMm - next.curveMm / 2 : Number.POSITIVE_INFINITY
    if (toMm > fromMm)
      stretches.push({
        fromMm,
        toMm,
        grade,
        fromElevationMm: halfMm > 0 ? node.elevationMm + grade * halfMm : node.elevationMm,
        toElevationMm: next ? next.elevationMm - (grade * next.curveMm) / 2 : node.elevationMm,
      })
    // Of two points at one station the second one holds, and a curve there leads from the grade before both.
    if (!next || next.atMm > node.atMm) gradeBefore = grade
  }
  return stretches
}

function gradeBetween(from: GradeNode, to: GradeNode): number {
  return to.atMm > from.atMm ? (to.elevationMm - from.elevationMm) / (to.atMm - from.atMm) : 0
}

/** The profile of a track whose grades are known: as `profileOf`, and level beyond them. */
export function profileOfGrades(startElevationMm: number, grades: readonly GradeStretch[]): Profile {
  const stretches: ProfileStretch[] = []
  let elevationMm = startElevationMm
  for (const stretch of grades) {
    const { fromMm, toMm, grade, endGrade = grade } = stretch
    const toElevationMm = elevationMm + ((grade + endGrade) / 2) * (toMm - fromMm)
    stretches.push({ ...stretch, fromElevationMm: elevationMm, toElevationMm })
    elevationMm = toElevationMm
  }
  const fromMm = grades.at(-1)?.toMm ?? 0
  const beyond = { fromMm, toMm: Number.POSITIVE_INFINITY, grade: 0 }
  return [...stretches, { ...beyond, fromElevationMm: elevationMm, toElevationMm: elevationMm }]
}

/** Elevation at a station, mm. */
export function elevationOn(profile: Profile, atMm: number): number {
  const stretch = profile[stretchAt(profile, atMm)]!
  const { fromMm, toMm, grade, endGrade, fromElevationMm, toElevationMm } = stretch
  const alongMm = Math.max(0, atMm - fromMm)
  if (toMm === Number.POSITIVE_INFINITY) return fromElevationMm + grade * alongMm
  if (endGrade !== undefined)
    return fromElevationMm + (grade + ((endGrade - grade) * alongMm) / (2 * (toMm - fromMm))) * alongMm
  return fromElevationMm + (alongMm / (toMm - fromMm)) * (toElevationMm - fromElevationMm)
}

/** Grade at a station: rise over level run. Where two grades meet, the one that begins. */
export function gradeOn(profile: Profile, atMm: number): number {
  return gradeWithin(profile[stretchAt(profile, atMm)]!, atMm)
}

/** Grade at a station of a stretch: rise over level run. */
export function gradeWithin({ fromMm, toMm, grade, endGrade }: GradeStretch, atMm: number): number {
  return endGrade === undefined ? grade : grade + ((endGrade - grade) * (atMm - fromMm)) / (toMm - fromMm)
}

function stretchAt(profile: Profile, atMm: number): number {
  return Math.max(0, firstIndexWhere(profile.length, (index) => profile[index]!.fromMm > atMm) - 1)
}

/**
 * The grades a track of `lengthMm` lies on, in order, covering [0, lengthMm] without a gap; neighbours of the same grade
 * are one stretch.
 */
export function gradesOn(profile: Profile, lengthMm: number): GradeStretch[] {
  const stretches: { fromMm: number; toMm: number; grade: number; endGrade?: number }[] = []
  for (const { fromMm, toMm, grade, endGrade } of profile) {
    const end = Math.min(toMm, lengthMm)
    if (end <= fromMm) break
    const last = stretches.at(-1)
    const isCurve = endGrade !== undefined && endGrade !== grade
    if (isCurve) stretches.push({ fromMm, toMm: end, grade, endGrade: end === toMm ? endGrade : gradeOn(profile, end) })
    else if (last && last.grade === grade && last.endGrade === undefined) last.toMm = end
    else stretches.push({ fromMm, toMm: end, grade })
  }
  return stretches
}
