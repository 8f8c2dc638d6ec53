import { formatMm } from '../../measure/length.ts'
import { type Assume, completed } from '../fields/complete.ts'
import { type GradePoint, TRACK, type TrackInput, type WholeTrack } from '../rows/track.ts'

/** A track that continues from another gets the first point of its grade line with its place (`placedTracks`). */
export function completeTrack(track: TrackInput, index: number, assume: Assume): WholeTrack {
  const at = `/tracks/${index}`
  if (!track.start) assume(`${at}/start`, 'x 0, y 0, heading 0°', 'a track on its own sheet starts at the origin')
  const gradeLine = (points: readonly GradePoint[] = []): readonly GradePoint[] =>
    track.start?.after === undefined && track.start?.from === undefined
      ? gradeLineFrom(track.start?.elevation, points, `${at}/start/elevation`, assume)
      : points
  return completed(TRACK, track, at, assume, { gradeLine })
}

/**
 * The grade line with a point at station 0: the start's own elevation, from which it climbs to the first point.
 * Where no elevation is given the track is level up to the first point.
 */
function gradeLineFrom(
  startElevationMm: number | undefined,
  points: readonly GradePoint[],
  at: string,
  assume: Assume,
): readonly GradePoint[] {
  const first = points[0]
  if (first?.at === 0) return points
  if (startElevationMm !== undefined) return [{ at: 0, elevation: startElevationMm }, ...points]
  const elevation = first?.elevation ?? 0
  const reason = first ? 'level up to the first point of the grade line' : 'no elevation and no grade line given'
  assume(at, formatMm(elevation, 4), reason)
  return [{ at: 0, elevation }, ...points]
}
