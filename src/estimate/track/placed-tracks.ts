import { toRadians } from '../../measure/angle.ts'
import type { WholeTrack } from '../../plan/rows/track.ts'
import { headingAfterDeg } from '../../track/closure.ts'
import { elevationOn, profileOf } from '../../track/grade.ts'
import { placeElements } from '../../track/place.ts'

/**
 * The tracks of a plan without faults, with coordinates wherever the plan gives a start or an end by another track. A
 * track that continues from another starts where that one ends, with its heading and elevation.
 */
export function placedTracks(tracks: readonly WholeTrack[]): readonly WholeTrack[] {
  if (tracks.every(({ start, end }) => start.after === null && !end?.before)) return tracks
  const byName = new Map(tracks.map((track) => [track.name, track]))
  const started = new Map<string, WholeTrack>()
  const startedTrack = (track: WholeTrack): WholeTrack => {
    const there = started.get(track.name)
    if (there) return there
    const chain = chainTo(track, byName, started)
    for (const each of chain) {
      const after = each.start.after === null ? undefined : started.get(each.start.after)
      started.set(each.name, after ? continuing(each, after) : each)
    }
    return started.get(track.name)!
  }
  return tracks.map((track) =>
    held(startedTrack(track), track.end?.before ? startedTrack(byName.get(track.end.before)!) : null),
  )
}

/** The tracks that have to be placed before this one, and itself, in order. Not recursive: a chain may be long. */
function chainTo(
  track: WholeTrack,
  byName: ReadonlyMap<string, WholeTrack>,
  started: ReadonlyMap<string, WholeTrack>,
): WholeTrack[] {
  const chain = [track]
  for (;;) {
    const { after } = chain[0]!.start
    if (after === null || started.has(after)) return chain
    chain.unshift(byName.get(after)!)
  }
}

function continuing(track: WholeTrack, { start, elements, closed, gradeLine }: WholeTrack): WholeTrack {
  const from = { xMm: start.x, yMm: start.y, headingRad: toRadians(start.heading) }
  const last = placeElements(from, elements, closed).at(-1)!
  const { xMm: x, yMm: y, headingRad } = last.end
  const heading = headingAfterDeg(start.heading, headingRad - from.headingRad)
  const elevation = elevationOn(profileOf(gradeLine, start.elevation), last.toMm)
  return { ...track, start: { after: track.start.after, x, y, heading, elevation } }
}

function held(track: WholeTrack, other: WholeTrack | null): WholeTrack {
  if (!other) return track
  const { x, y, heading } = other.start
  const elevation = elevationOn(profileOf(other.gradeLine, other.start.elevation), 0)
  return { ...track, end: { before: other.name, at: { x, y, heading, elevation } } }
}
