import { firstIndexWhere } from '../measure/search.ts'
import type { GradePoint } from '../plan/rows/track.ts'

/** A straight grade between two stations: rise over level run, signed, rising along the track positive. */
export interface GradeStretch {
  readonly fromMm: number
  readonly toMm: number
  readonly grade: number
}

/**
 * Elevation at a station, mm. Points in order of station; a line without points is level at 0. Where two points share
 * a station the later one holds from there on.
 */
export function elevationAt(gradeLine: readonly GradePoint[], atMm: number): number {
  const next = firstIndexWhere(gradeLine.length, (index) => gradeLine[index]!.at > atMm)
  const before = gradeLine[next - 1]
  const after = gradeLine[next]
  if (!before) return after?.elevation ?? 0
  if (!after) return before.elevation
  const part = (atMm - before.at) / (after.at - before.at)
  return before.elevation + part * (after.elevation - before.elevation)
}

/**
 * The straight grades a track of `lengthMm` lies on, in order, covering [0, lengthMm] without a gap; neighbours of the
 * same grade are one stretch. Grade = (z2 − z1)/(s2 − s1), z elevations and s stations.
 */
export function gradesAlong(gradeLine: readonly GradePoint[], lengthMm: number): GradeStretch[] {
  const stretches: { fromMm: number; toMm: number; grade: number }[] = []
  let reachedMm = 0
  const extend = (toMm: number, grade: number) => {
    const end = Math.min(toMm, lengthMm)
    if (end <= reachedMm) return
    const last = stretches.at(-1)
    if (last?.grade === grade) last.toMm = end
    else stretches.push({ fromMm: reachedMm, toMm: end, grade })
    reachedMm = end
  }
  for (const [index, point] of gradeLine.entries()) {
    const before = gradeLine[index - 1]
    const grade = before ? (point.elevation - before.elevation) / (point.at - before.at) : 0
    extend(point.at, grade)
  }
  extend(lengthMm, 0)
  return stretches
}
