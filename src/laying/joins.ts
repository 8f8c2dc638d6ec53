import { exceeds } from '../measure/counting.ts'
import { signedHeadingErrorDeg } from '../track/closure.ts'
import type { Pose } from '../track/types.ts'

/** What joining needs of a track: where it starts and ends, and what the plan says about its ends. */
export interface JoinableTrack {
  readonly name: string
  /** The track whose start its end must meet. */
  readonly before: string | null
  readonly start: Pose
  readonly end: Pose
  readonly closed: boolean
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  /** The ends of turnouts at which it starts and ends; none when left out. */
  readonly legs?: { readonly start: unknown; readonly end: unknown } | undefined
}

/** Which ends of a track join other track: existing track, or a track of the plan that was drawn before it. */
export interface JoinedEnds {
  readonly existing: readonly ('start' | 'end')[]
  readonly ofPlan: readonly { readonly end: 'start' | 'end'; readonly otherTrack: number }[]
  /** Ends at a turnout; none when left out. */
  readonly legs?: readonly ('start' | 'end')[] | undefined
}

/**
 * Finds the ends at which tracks of a plan meet: as close as the ends of a closed track must be
 * (`gapMm`, `headingDeg`), and pointing at each other. The later track of the two counts the join, so that its two
 * joiners and its shared tie are counted once. An end that must meet the start of a track is joined to it also where it
 * misses it, as the ends of a closed track are. An end declared to join existing track is not checked, and neither is an
 * end that meets it.
 */
export function joinedEnds(tracks: readonly JoinableTrack[], gapMm: number, headingDeg: number): JoinedEnds[] {
  return tracks.map((track, index) => {
    const ends = endsOf(track)
    const ofPlan = ends
      .filter(({ declared }) => !declared)
      .flatMap(({ end, outward }) => {
        const otherTrack = tracks
          .slice(0, index)
          .findIndex((other) =>
            endsOf(other).some(
              (its) =>
                !its.declared &&
                (mustMeet(track, end, other, its.end) || meet(outward, its.outward, gapMm, headingDeg)),
            ),
          )
        return otherTrack < 0 ? [] : [{ end, otherTrack }]
      })
    const { legs, joinsExisting } = track
    const atLegs = (['start', 'end'] as const).filter((end) => legs?.[end])
    const existing = ends.filter(({ end }) => joinsExisting[end]).map(({ end }) => end)
    return { existing, ofPlan, ...(atLegs.length > 0 && { legs: atLegs }) }
  })
}

/** The poses of a track's ends, each facing out of the track. */
function endsOf(track: JoinableTrack) {
  if (track.closed) return []
  const { start, end, joinsExisting, legs } = track
  return [
    {
      end: 'start',
      declared: joinsExisting.start || Boolean(legs?.start),
      outward: { ...start, headingRad: start.headingRad + Math.PI },
    },
    { end: 'end', declared: joinsExisting.end || Boolean(legs?.end), outward: end },
  ] as const
}

function mustMeet(track: JoinableTrack, end: 'start' | 'end', other: JoinableTrack, itsEnd: 'start' | 'end'): boolean {
  if (end === itsEnd) return false
  const [ending, starting] = end === 'end' ? [track, other] : [other, track]
  return ending.before === starting.name
}

function meet(a: Pose, b: Pose, gapMm: number, headingDeg: number): boolean {
  if (exceeds(Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm), gapMm)) return false
  return Math.abs(signedHeadingErrorDeg(a.headingRad - b.headingRad - Math.PI)) <= headingDeg
}
