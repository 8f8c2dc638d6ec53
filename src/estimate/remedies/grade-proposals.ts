import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { sameLength } from '../../measure/counting.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { Line } from './line.ts'

type SentPoint = Readonly<Record<string, unknown>>

function pointsOf({ sent }: Line, track: number): readonly SentPoint[] {
  return listAt(sent, ['tracks', track, 'gradeLine']) as readonly SentPoint[]
}

function elevationOf(track: number, point: number, value: number | string): Patch {
  return [{ op: 'replace', path: `/tracks/${track}/gradeLine/${point}/elevation`, value }]
}

/** A stretch at the steepest grade allowed: the height of its end changed, or that of its start. */
export function gradeProposals({ limit, element }: Finding, line: Line, track: number): Patch[] {
  const { grades, placed } = line.tracks[track]!
  const points = pointsOf(line, track)
  const most = limit! / 100
  return grades
    .filter(({ grade, fromMm }) => Math.abs(grade) > most && fromMm < placed[element!]!.toMm)
    .filter(({ fromMm }) => fromMm >= placed[element!]!.fromMm - 1e-6)
    .flatMap(({ fromMm, toMm, grade }) => {
      const start = points.findIndex(({ at }) => sameLength(mmOf(at), fromMm))
      const end = points.findIndex(({ at }) => sameLength(mmOf(at), toMm))
      if (start < 0 || end < 0) return []
      const riseMm = Math.sign(grade) * most * (toMm - fromMm)
      const [low, high] = [points[start]!.elevation, points[end]!.elevation]
      const towards = (down: boolean) => (down ? 'down' : 'up')
      return [
        elevationOf(track, end, lengthLike(high, mmOf(low) + riseMm, 0, towards(grade > 0))),
        elevationOf(track, start, lengthLike(low, mmOf(high) - riseMm, 0, towards(grade < 0))),
      ]
    })
}

/** The last point of the grade line at the height where the track starts. */
export function levelProposals(line: Line, track: number): Patch[] {
  const points = pointsOf(line, track)
  const { startElevationMm, closed } = line.tracks[track]!
  return closed ? lastPointAt(startElevationMm, points, track) : []
}

/** The last point of the grade line at the height of the turnout that the track comes to. */
export function legLevelProposals(line: Line, track: number): Patch[] {
  const elevationMm = line.tracks[track]!.heldAt?.elevationMm
  return elevationMm == null ? [] : lastPointAt(elevationMm, pointsOf(line, track), track)
}

function lastPointAt(elevationMm: number, points: ReturnType<typeof pointsOf>, track: number): Patch[] {
  const last = points.length - 1
  return last < 0 ? [] : [elevationOf(track, last, lengthLike(points[last]!.elevation, elevationMm, 0))]
}
