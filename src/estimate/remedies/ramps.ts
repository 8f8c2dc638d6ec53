import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { runOutMm } from '../../network/over-crossings.ts'
import { gradeNodes } from '../../plan/grade-line.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { elevationOn } from '../../track/grade.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { type Line, sentElements, unitOf } from './line.ts'

/** What rounding the places and heights of a grade line may take away. */
export const MARGIN_MM = 2
/** Ramps are a little less steep than they may be, as their ends are rounded too. */
const SHARE_OF_GRADE = 0.99

/** A point of a new grade line. */
export interface Point {
  readonly atMm: number
  readonly elevationMm: number
  /** As it was sent, if it is an old one. */
  readonly sent?: Readonly<Record<string, unknown>>
  /** Length of its vertical curve; none when left out. */
  readonly curveMm?: number
}

/**
 * A track that is higher at a station (by less than zero: lower), with ramps both ways at the steepest grade that the plan
 * allows, to where they meet the heights that it has; a track whose end is free may stay up to its end. First with vertical
 * curves as long as its own, which take A·L/8 off the summit, A the change of grade and L the length; then without.
 */
export function ramped(line: Line, track: number, atMm: number, byMm: number): Patch[] {
  const laid = line.tracks[track]!
  // What lies there stays as it is.
  if (laid.state !== 'new') return []
  const grade = (SHARE_OF_GRADE * line.plan.standards.maximumGradePct) / 100
  const ownMm = Math.max(0, ...line.plan.tracks[track]!.gradeLine.map(({ verticalCurve }) => verticalCurve ?? 0))
  return (ownMm > 0 ? [ownMm, 0] : [0]).flatMap((curveMm) => {
    const moreMm = byMm + Math.sign(byMm) * (MARGIN_MM + (2 * grade * curveMm) / 8)
    const points = pointsOf(line, track, laid, atMm, moreMm, grade, curveMm)
    return points ? [newGradeLine(points, line, track)] : []
  })
}

function pointsOf(
  line: Line,
  track: number,
  laid: LaidTrack,
  atMm: number,
  byMm: number,
  grade: number,
  curveMm: number,
): Point[] | null {
  const { closed, lengthMm, profile, heldAt } = laid
  const { beforeMm, afterMm } = runOutMm(profile, laid, atMm, byMm, grade)
  if (beforeMm === null || (afterMm === null && (closed || heldAt))) return null
  const old = oldPoints(line, track)
  // Not inside a vertical curve that stays: the ramp is longer then, and less steep.
  const curves = old.map((point) => ({ at: point.atMm, half: (point.curveMm ?? 0) / 2 }))
  const inside = (mm: number) => curves.find(({ at, half }) => mm > at - half && mm < at + half)
  // Two vertical curves need as much between their middles as they are long.
  const startMm = atMm - Math.max(curveMm, beforeMm + curveMm / 2)
  const from = inside(startMm) ? inside(startMm)!.at - inside(startMm)!.half : startMm
  const endMm = afterMm === null ? Number.POSITIVE_INFINITY : atMm + Math.max(curveMm, afterMm + curveMm / 2)
  const to = inside(endMm) ? inside(endMm)!.at + inside(endMm)!.half : endMm
  const newMm = elevationOn(profile, atMm) + byMm
  if (from < 0 || (afterMm !== null && to > lengthMm)) return closed ? around(laid, from, atMm, to, newMm, old) : null
  const kept = (point: Point) => point.atMm < from - 1 || point.atMm > to + 1
  const high = (mm: number): Point => ({ atMm: mm, elevationMm: newMm, curveMm })
  const foot = (mm: number): Point => ({ atMm: mm, elevationMm: elevationOn(profile, mm), curveMm })
  const points = [
    ...old.filter(kept),
    foot(Math.max(0, from)),
    high(atMm),
    ...(afterMm === null ? [] : [foot(to)]),
  ].toSorted((a, b) => a.atMm - b.atMm)
  return points[0]!.atMm > 1 && !points[0]!.sent
    ? [{ atMm: 0, elevationMm: elevationOn(profile, 0) }, ...points]
    : points
}

/** The same over the start of a closed track, which is a point of its own. */
function around(
  { lengthMm, profile }: LaidTrack,
  from: number,
  atMm: number,
  to: number,
  newMm: number,
  old: readonly Point[],
): Point[] | null {
  if (to - from >= lengthMm) return null
  const on = (mm: number) => mm - lengthMm * Math.floor(mm / lengthMm)
  const [fromOn, toOn] = [on(from), on(to)]
  const foot = (mm: number): Point => ({ atMm: mm, elevationMm: elevationOn(profile, mm) })
  const [low, high] = from < 0 ? [foot(fromOn), newMm] : [foot(toOn), newMm]
  const [lowMm, highMm] = from < 0 ? [from, atMm] : [to - lengthMm, atMm - lengthMm]
  const startMm = low.elevationMm + ((high - low.elevationMm) * (0 - lowMm)) / (highMm - lowMm)
  return [
    { atMm: 0, elevationMm: startMm },
    ...old.filter((point) => point.atMm > toOn + 1 && point.atMm < fromOn - 1),
    foot(fromOn),
    foot(toOn),
    { atMm, elevationMm: newMm },
    { atMm: lengthMm, elevationMm: startMm },
  ].toSorted((a, b) => a.atMm - b.atMm)
}

/** The points that the track has. */
function oldPoints({ sent, plan }: Line, track: number): Point[] {
  const given = listAt(sent, ['tracks', track, 'gradeLine']) as readonly Readonly<Record<string, unknown>>[]
  const { gradeLine, start } = plan.tracks[track]!
  const nodes = gradeNodes(gradeLine, start.elevation)
  return given.map((sentPoint): Point => {
    const node = nodes.find(({ atMm }) => Math.abs(atMm - mmOf(sentPoint.at)) < 1e-6)!
    return { atMm: node.atMm, elevationMm: node.elevationMm, sent: sentPoint, curveMm: node.curveMm }
  })
}

/** The grade line of a track as a patch, in the unit of its other lengths; old points as they were written. */
export function newGradeLine(points: readonly Point[], line: Line, track: number): Patch {
  const given = unitOf(sentElements(line, track))
  const path = `/tracks/${track}/gradeLine`
  const { startElevationMm, lengthMm } = line.tracks[track]!
  const written = (mm: number) => lengthLike(given, mm, 1, mm < 0 ? 'down' : 'nearest')
  const { after, from } = line.plan.tracks[track]!.start
  // The height of its start is that of the track it goes on from, and is not said again.
  const isBound = after !== null || from !== null
  const steps = points
    .filter(({ atMm }, index) => (index === 0 ? !isBound || atMm > 0 : atMm - points[index - 1]!.atMm >= 1))
    .map(({ atMm, elevationMm, sent, curveMm }): Patch[number] => ({
      op: 'add',
      path: `${path}/-`,
      value: {
        // What ends a closed track must not be beyond it.
        at: (sent?.at as number | string) ?? lengthLike(given, atMm, 1, atMm === lengthMm ? 'down' : 'nearest'),
        elevation:
          (sent?.elevation as number | string) ??
          (elevationMm === startElevationMm ? elevationMm : written(elevationMm)),
        ...(curveMm && { verticalCurve: (sent?.verticalCurve as number | string) ?? written(curveMm) }),
      },
    }))
  // A track does not start at two heights.
  const start = valueAt(line.sent, ['tracks', track, 'start', 'elevation'])
  const first = steps[0]!.value as { readonly at: number | string; readonly elevation: number | string }
  const moved = start !== undefined && mmOf(first.at) === 0 && mmOf(first.elevation) !== startElevationMm
  return [
    ...(moved ? [{ op: 'replace' as const, path: `/tracks/${track}/start/elevation`, value: first.elevation }] : []),
    { op: 'add', path, value: [] },
    ...steps,
  ]
}
