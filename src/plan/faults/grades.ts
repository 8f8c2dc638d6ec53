import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { elementLengthMm } from '../elements.ts'
import { elevationMissed, type GradeNode, gradeNodes } from '../grade-line.ts'
import type { PlanDraft, TrackDraft } from '../reading/draft.ts'
import { type GradePoint, STEEPEST_PCT } from '../rows/track.ts'
import { verticalCurveFaults } from './vertical-curves.ts'

/** A grade within a billionth of the limit passes: it was computed from two elevations. */
const SLACK = 1e-9

/** What is wrong with the grade line of one track: the order of its points, its start, its grades and vertical curves. */
export function gradeLineFaults(track: TrackDraft, at: Fault['path']): Fault[] {
  const { gradeLine = [], start } = track
  const points = readPoints(gradeLine)
  return [
    ...orderFaults(gradeLine, at),
    ...startFaults(gradeLine, start?.elevation, at),
    ...steepPoints(gradeLine, start?.elevation, start?.after !== undefined, at),
    ...(points ? verticalCurveFaults(points, track, at) : []),
  ]
}

function orderFaults(points: readonly (GradePoint | null)[], at: Fault['path']): Fault[] {
  let lastMm = Number.NEGATIVE_INFINITY
  return points.flatMap((point, index): Fault[] => {
    if (!point) return []
    const beforeMm = lastMm
    lastMm = point.at
    if (exceeds(point.at, beforeMm)) return []
    return [
      {
        path: [...at, 'gradeLine', index, 'at'],
        code: 'out-of-order',
        detail: `station ${formatMm(point.at, 3)} does not come after ${formatMm(beforeMm, 3)}`,
        hint: 'list the points of a grade line in order along the track, each station once',
      },
    ]
  })
}

function startFaults(
  points: readonly (GradePoint | null)[],
  elevationMm: number | undefined,
  at: Fault['path'],
): Fault[] {
  const first = points[0]
  if (first?.at !== 0 || elevationMm === undefined) return []
  if (first.elevation !== undefined)
    return Math.abs(first.elevation - elevationMm) <= LENGTH_SLACK_MM
      ? []
      : [
          {
            path: [...at, 'gradeLine', 0, 'elevation'],
            code: 'contradictory',
            detail: `the grade line starts at ${formatMm(first.elevation, 3)}, but the track's start is at ${formatMm(elevationMm, 3)}`,
            hint: 'give the elevation at station 0 once',
          },
        ]
  const read = readPoints(points)
  return read ? missedFaults(read, elevationMm, at) : []
}

/** Grades that do not lead from the elevation of the start to one that is given. */
function missedFaults(points: readonly GradePoint[], startMm: number, at: Fault['path']): Fault[] {
  const missed = elevationMissed(points, startMm)
  const elevationMm = missed && points[missed.point]!.elevation!
  if (missed === null || elevationMm === null || Math.abs(missed.reachedMm - elevationMm) <= LENGTH_SLACK_MM) return []
  return [
    {
      path: [...at, 'gradeLine', missed.point, 'elevation'],
      code: 'contradictory',
      detail: `the grades before this point lead from ${formatMm(startMm, 3)} at the start to ${formatMm(missed.reachedMm, 3)}, not to ${formatMm(elevationMm, 3)}`,
      hint: 'leave out one of them: the elevation here, that of the start, or a grade between them',
    },
  ]
}

/**
 * Grades between neighbouring points that no train stands on. Of a track that continues from another, those after its
 * first point: what leads to that depends on the other track.
 */
function steepPoints(
  points: readonly (GradePoint | null)[],
  startMm: number | undefined,
  continues: boolean,
  at: Fault['path'],
): Fault[] {
  const nodes = knownNodes(points, startMm, continues)
  return nodes.flatMap((node, index): Fault[] => {
    const before = nodes[index - 1]
    if (!node || !before || !exceeds(node.atMm, before.atMm)) return []
    const point = index - (nodes.length - points.length)
    const field = points[point]!.elevation === undefined ? 'gradePct' : 'elevation'
    return steepness(before, node, [...at, 'gradeLine', point, field])
  })
}

/** The points with their elevations; null where there is none because another one cannot be read. */
function knownNodes(
  points: readonly (GradePoint | null)[],
  startMm: number | undefined,
  continues: boolean,
): readonly (GradeNode | null)[] {
  const read = readPoints(points)
  if (read) {
    const nodes = gradeNodes(read, startMm)
    return continues && nodes.length > read.length ? [null, ...nodes.slice(1)] : nodes
  }
  const nodes = points.map((point) =>
    point?.elevation === undefined ? null : gradeNodes([point]).find(({ atMm }) => atMm === point.at)!,
  )
  const first = points[0]
  return startMm !== undefined && first && first.at > 0 ? [gradeNodes([], startMm)[0]!, ...nodes] : nodes
}

/** The same for tracks that continue from another, whose grade line begins with the elevation of that one's end. */
export function continuedGradeFaults(tracks: PlanDraft['tracks']): Fault[] {
  const byName = new Map(tracks.map((track) => [track?.name, track]))
  const ends = new Map<TrackDraft, number | null>()
  const startOf = ({ start, gradeLine }: TrackDraft): number | null => {
    if (start?.after !== undefined) return endOf(byName.get(start.after))
    const points = readPoints(gradeLine ?? [])
    return points && gradeNodes(points, start?.elevation)[0]!.elevationMm
  }
  /** Null where it cannot be told. */
  const endOf = (track: TrackDraft | null | undefined): number | null => {
    if (!track) return null
    const known = ends.get(track)
    if (known !== undefined) return known
    // Tracks that continue each other in a circle end nowhere.
    ends.set(track, null)
    const start = startOf(track)
    const elevationMm = start === null ? null : elevationAtEnd(track, start)
    ends.set(track, elevationMm)
    return elevationMm
  }
  return tracks.flatMap((track, index) => {
    const points = readPoints(track?.gradeLine ?? [])
    const first = points?.[0]
    if (track?.start?.after === undefined || !points || !first) return []
    const elevation = startOf(track)
    if (elevation === null) return []
    const at = ['tracks', index]
    const [start, next] = gradeNodes(points, elevation)
    if (first.at === 0) return first.elevation === undefined ? missedFaults(points, elevation, at) : []
    const field = first.elevation === undefined ? 'gradePct' : 'elevation'
    return steepness(start!, next!, [...at, 'gradeLine', 0, field])
  })
}

function elevationAtEnd({ elements, gradeLine = [] }: TrackDraft, startMm: number): number | null {
  const points = readPoints(gradeLine)
  if (elements.includes(null) || !points) return null
  const lengthMm = elements.reduce((sum, element) => sum + elementLengthMm(element!), 0)
  const nodes = gradeNodes(points, startMm)
  const next = nodes.findIndex(({ atMm }) => atMm > lengthMm)
  const before = nodes.at(next < 0 ? -1 : next - 1)!
  const after = nodes[next]
  const grade = after ? (after.elevationMm - before.elevationMm) / (after.atMm - before.atMm) : (before.grade ?? 0)
  return before.elevationMm + grade * (lengthMm - before.atMm)
}

/** Null where one could not be read, or they are not in order. */
function readPoints(points: readonly (GradePoint | null)[]): readonly GradePoint[] | null {
  const inOrder = points.every((point, index) => point && (index === 0 || exceeds(point.at, points[index - 1]!.at)))
  return inOrder ? (points as readonly GradePoint[]) : null
}

function steepness(from: GradeNode, to: GradeNode, path: Fault['path']): Fault[] {
  const runMm = to.atMm - from.atMm
  const riseMm = Math.abs(to.elevationMm - from.elevationMm)
  if (riseMm <= (STEEPEST_PCT / 100) * runMm * (1 + SLACK)) return []
  return [
    {
      path,
      code: 'out-of-range',
      detail: `a rise or fall of ${formatMm(riseMm, 3)} over ${formatMm(runMm, 3)} is a grade of ${percent(riseMm / runMm)}; no grade may be over ${STEEPEST_PCT} %`,
      hint: 'check the units of station and elevation: trains climb a few percent, and a rack railway up to 48 %',
    },
  ]
}

function percent(grade: number): string {
  return `${Number((100 * grade).toPrecision(4))} %`
}
