import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { elementLengthMm } from '../elements.ts'
import type { PlanDraft, TrackDraft } from '../reading/draft.ts'
import type { GradePoint } from '../rows/track.ts'

/**
 * The steepest grade that is read, rise over level run: 100 %, or 45°. The steepest rack railway climbs 48 % (from memory),
 * and wheels alone a fifth of that, so a steeper grade is a mistake in a number or its unit. It also bounds the length of
 * a rail: at 45° it is √2 times as long as its plan.
 */
const STEEPEST = 1
/** A grade within a billionth of the limit passes: it was computed from two elevations. */
const SLACK = 1e-9

/** What is wrong with the grade line of one track: the order of its points, its start, and its grades. */
export function gradeLineFaults(track: TrackDraft, at: Fault['path']): Fault[] {
  const faults: Fault[] = []
  const elevationMm = track.start?.elevation
  const first = track.gradeLine?.[0]
  let last: GradePoint | null =
    elevationMm !== undefined && first && first.at > 0 ? { at: 0, elevation: elevationMm } : null
  track.gradeLine?.forEach((point, index) => {
    if (point && last && !exceeds(point.at, last.at))
      faults.push({
        path: [...at, 'gradeLine', index, 'at'],
        code: 'out-of-order',
        detail: `station ${formatMm(point.at, 3)} does not come after ${formatMm(last.at, 3)}`,
        hint: 'list the points of a grade line in order along the track, each station once',
      })
    else if (point && last) faults.push(...steepness(last, point, [...at, 'gradeLine', index, 'elevation']))
    if (point) last = point
  })
  if (first?.at === 0 && elevationMm !== undefined && Math.abs(first.elevation - elevationMm) > LENGTH_SLACK_MM)
    faults.push({
      path: [...at, 'gradeLine', 0, 'elevation'],
      code: 'contradictory',
      detail: `the grade line starts at ${formatMm(first.elevation, 3)}, but the track's start is at ${formatMm(elevationMm, 3)}`,
      hint: 'give the elevation at station 0 once',
    })
  return faults
}

/** The same for tracks that continue from another, whose grade line begins with the elevation of that one's end. */
export function continuedGradeFaults(tracks: PlanDraft['tracks']): Fault[] {
  const byName = new Map(tracks.map((track) => [track?.name, track]))
  const ends = new Map<TrackDraft, number | null>()
  const startOf = ({ start, gradeLine }: TrackDraft): number | null => {
    if (start?.after !== undefined) return endOf(byName.get(start.after))
    return start?.elevation ?? gradeLine?.[0]?.elevation ?? 0
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
    const first = track?.gradeLine?.[0]
    if (track?.start?.after === undefined || !first || first.at <= 0) return []
    const elevation = startOf(track)
    return elevation === null
      ? []
      : steepness({ at: 0, elevation }, first, ['tracks', index, 'gradeLine', 0, 'elevation'])
  })
}

function elevationAtEnd({ elements, gradeLine = [] }: TrackDraft, startMm: number): number | null {
  if (elements.includes(null) || gradeLine.includes(null)) return null
  const lengthMm = elements.reduce((sum, element) => sum + elementLengthMm(element!), 0)
  let before: GradePoint = { at: 0, elevation: startMm }
  for (const point of gradeLine as readonly GradePoint[]) {
    if (point.at > lengthMm) {
      const part = (lengthMm - before.at) / (point.at - before.at)
      return before.elevation + part * (point.elevation - before.elevation)
    }
    before = point
  }
  return before.elevation
}

function steepness(from: GradePoint, to: GradePoint, path: Fault['path']): Fault[] {
  const runMm = to.at - from.at
  const riseMm = Math.abs(to.elevation - from.elevation)
  if (riseMm <= STEEPEST * runMm * (1 + SLACK)) return []
  return [
    {
      path,
      code: 'out-of-range',
      detail: `a rise or fall of ${formatMm(riseMm, 3)} over ${formatMm(runMm, 3)} is a grade of ${percent(riseMm / runMm)}; no grade may be over ${percent(STEEPEST)}`,
      hint: 'check the units of station and elevation: trains climb a few percent, and a rack railway up to 48 %',
    },
  ]
}

function percent(grade: number): string {
  return `${Number((100 * grade).toPrecision(4))} %`
}
