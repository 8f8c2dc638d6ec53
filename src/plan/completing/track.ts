import { formatMm } from '../../measure/length.ts'
import { type Assume, completed } from '../fields/complete.ts'
import { gradeNodes } from '../grade-line.ts'
import { TRACK, type TrackInput, type WholeTrack } from '../rows/track.ts'

/** A track that continues from another gets its place and the elevation of its start with that one (`placedTracks`). */
export function completeTrack(track: TrackInput, index: number, assume: Assume): WholeTrack {
  const at = `/tracks/${index}`
  if (!track.start) assume(`${at}/start`, 'x 0, y 0, heading 0°', 'a track on its own sheet starts at the origin')
  const { start, gradeLine = [] } = track
  const first = gradeLine[0]
  const isGiven =
    start?.elevation !== undefined || start?.after !== undefined || start?.from !== undefined || first?.at === 0
  if (!isGiven) {
    const elevationMm = gradeNodes(gradeLine)[0]!.elevationMm
    const reason = first ? 'level up to the first point of the grade line' : 'no elevation and no grade line given'
    assume(`${at}/start/elevation`, formatMm(elevationMm, 4), reason)
  }
  // What is complete has nothing left to be fitted, which its rows cannot say.
  return completed(TRACK, track, at, assume) as WholeTrack
}
