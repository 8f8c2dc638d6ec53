import { exceeds } from '../measure/counting.ts'
import { signedHeadingErrorDeg } from '../track/closure.ts'
import type { Pose } from '../track/types.ts'
import type { NetworkTrack } from './track.ts'

/** An end of one of the tracks. */
export interface TrackEnd {
  /** Its index. */
  readonly track: number
  readonly end: 'start' | 'end'
}

interface FreeEnd extends TrackEnd {
  readonly outward: Pose
}

/**
 * The ends of tracks that meet each other, in pairs: an end that must come to the start of another track, and ends that
 * lie so close and point at each other as `joinedEnds` (src/laying/joins.ts) wants it. Ends at turnouts and at track
 * that is no part of the plan meet nothing else.
 */
export function meetingEnds(
  tracks: readonly NetworkTrack[],
  gapMm: number,
  headingDeg: number,
): (readonly [TrackEnd, TrackEnd])[] {
  const free = tracks.flatMap((track, index) => freeEnds(track, index))
  const index = new Map(tracks.map(({ name }, at) => [name, at]))
  const declared = free.flatMap((own): (readonly [TrackEnd, TrackEnd])[] => {
    const { before } = tracks[own.track]!
    const other = before === null || own.end === 'start' ? undefined : index.get(before)
    return other === undefined ? [] : [[own, { track: other, end: 'start' }]]
  })
  // From left to right, so that only ends near one another are compared.
  const sorted = free.toSorted((a, b) => a.outward.xMm - b.outward.xMm)
  const byPlace = sorted.flatMap((own, at) => {
    const pairs: (readonly [TrackEnd, TrackEnd])[] = []
    for (let next = at + 1; next < sorted.length; next++) {
      const other = sorted[next]!
      if (exceeds(other.outward.xMm - own.outward.xMm, gapMm)) break
      if (other.track !== own.track && meet(own.outward, other.outward, gapMm, headingDeg)) pairs.push([own, other])
    }
    return pairs
  })
  return [...declared, ...byPlace]
}

function freeEnds({ closed, start, end, joinsExisting, legs }: NetworkTrack, track: number): FreeEnd[] {
  if (closed) return []
  const ends: FreeEnd[] = []
  if (!joinsExisting.start && !legs.start)
    ends.push({ track, end: 'start', outward: { ...start, headingRad: start.headingRad + Math.PI } })
  if (!joinsExisting.end && !legs.end) ends.push({ track, end: 'end', outward: end })
  return ends
}

function meet(a: Pose, b: Pose, gapMm: number, headingDeg: number): boolean {
  if (exceeds(Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm), gapMm)) return false
  return Math.abs(signedHeadingErrorDeg(a.headingRad - b.headingRad - Math.PI)) <= headingDeg
}
