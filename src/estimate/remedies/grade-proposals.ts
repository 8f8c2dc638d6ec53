import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { Line } from './line.ts'

type SentPoint = Readonly<Record<string, unknown>>

function pointsOf({ sent }: Line, track: number): readonly SentPoint[] {
  return listAt(sent, ['tracks', track, 'gradeLine']) as readonly SentPoint[]
}

function replaced(track: number, point: number, field: 'elevation' | 'gradePct', value: number | string): Patch {
  return [{ op: 'replace', path: `/tracks/${track}/gradeLine/${point}/${field}`, value }]
}

/** A stretch at the steepest grade allowed: the grade itself, or the height of its end, or that of its start. */
export function gradeProposals({ measured, limit, element }: Finding, line: Line, track: number): Patch[] {
  const { grades, placed } = line.tracks[track]!
  const points = pointsOf(line, track)
  const { fromMm: firstMm, toMm: lastMm } = placed[element!]!
  return grades
    .filter(({ grade, endGrade }) => endGrade === undefined && sameGrade(Math.abs(100 * grade), measured!))
    .filter(({ fromMm, toMm }) => fromMm < lastMm && toMm > firstMm + 1e-6)
    .flatMap(({ fromMm, toMm, grade }) => {
      const start = points.findLastIndex(({ at }) => mmOf(at) <= fromMm + LENGTH_SLACK_MM)
      const end = points.findIndex(({ at }) => mmOf(at) >= toMm - LENGTH_SLACK_MM)
      if (points[start]?.gradePct !== undefined) return [replaced(track, start, 'gradePct', Math.sign(grade) * limit!)]
      if (start < 0 || end < 0) return []
      return heightProposals(track, points, { start, end }, Math.sign(grade) * (limit! / 100))
    })
}

/** A vertical curve of the length it needs, where the grade line has a point. */
export function verticalCurveProposals({ limit, element }: Finding, line: Line, track: number): Patch[] {
  const points = pointsOf(line, track)
  const { placed } = line.tracks[track]!
  const { fromMm, toMm } = placed[element!]!
  return points.flatMap((point, index): Patch[] => {
    const atMm = mmOf(point.at)
    if (atMm < fromMm - LENGTH_SLACK_MM || atMm > toMm + LENGTH_SLACK_MM || index === 0) return []
    const given = point.verticalCurve
    const value = lengthLike(given ?? point.at, limit!, 0, 'up')
    const op = given === undefined ? 'add' : 'replace'
    return [[{ op, path: `/tracks/${track}/gradeLine/${index}/verticalCurve`, value }]]
  })
}

/** Whether two grades, percent, are the same but for how they were computed. */
function sameGrade(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * b
}

/** The points between which a stretch is too steep, each in turn moved up or down; one without an elevation is not. */
function heightProposals(
  track: number,
  points: readonly SentPoint[],
  { start, end }: { readonly start: number; readonly end: number },
  grade: number,
): Patch[] {
  const [from, to] = [points[start]!, points[end]!]
  const [low, high] = [from.elevation, to.elevation]
  if (low === undefined || high === undefined) return []
  const riseMm = grade * (mmOf(to.at) - mmOf(from.at))
  const towards = (down: boolean) => (down ? 'down' : 'up')
  return [
    replaced(track, end, 'elevation', lengthLike(high, mmOf(low) + riseMm, 0, towards(grade > 0))),
    replaced(track, start, 'elevation', lengthLike(low, mmOf(high) - riseMm, 0, towards(grade < 0))),
  ]
}

/** The last point of the grade line at the height where the track starts. */
export function levelProposals(line: Line, track: number): Patch[] {
  const points = pointsOf(line, track)
  const { startElevationMm, closed } = line.tracks[track]!
  const last = points.at(-1)
  if (!closed || last?.elevation === undefined) return []
  return [replaced(track, points.length - 1, 'elevation', lengthLike(last.elevation, startElevationMm, 0))]
}

/** The last point of the grade line at the height of the turnout that the track comes to. */
export function legLevelProposals(line: Line, track: number): Patch[] {
  const points = pointsOf(line, track)
  const elevationMm = line.tracks[track]!.heldAt?.elevationMm
  const last = points.at(-1)
  if (elevationMm == null || last?.elevation === undefined) return []
  return [replaced(track, points.length - 1, 'elevation', lengthLike(last.elevation, elevationMm, 0))]
}
