import { exceeds } from '../measure/counting.ts'
import { meetingEnds, type TrackEnd } from './meeting-ends.ts'
import type { NetworkTrack } from './track.ts'

/** A track of the network with the heights of its ends. */
export interface LevelledTrack extends NetworkTrack {
  readonly startElevationMm: number
  readonly endElevationMm: number
}

/** Two ends that lie on each other and point at each other, but not at one height. */
export interface HeightStep {
  /** The later track of the plan. */
  readonly own: TrackEnd
  readonly other: TrackEnd
  /** The own end above the other. */
  readonly stepMm: number
}

/** Where tracks meet by their coordinates alone with a step of more than a gap; an end that the plan holds is `closure`. */
export function heightSteps(tracks: readonly LevelledTrack[], gapMm: number, headingDeg: number): HeightStep[] {
  if (tracks.length < 2) return []
  const there = tracks.flatMap(({ state }, index) => (state === 'lifted' ? [] : [index]))
  const meetings = meetingEnds(
    there.map((index) => tracks[index]!),
    gapMm,
    headingDeg,
  )
  return meetings
    .map(([a, b]) => {
      const [one, two] = [a, b].map(({ track, end }) => ({ track: there[track]!, end })) as [TrackEnd, TrackEnd]
      const [own, other] = one.track > two.track ? [one, two] : [two, one]
      return { own, other, stepMm: heightOf(own, tracks) - heightOf(other, tracks) }
    })
    .filter(({ own, other, stepMm }) => exceeds(Math.abs(stepMm), gapMm) && !isHeld(own, other, tracks))
    .sort((a, b) => a.own.track - b.own.track)
}

export function heightOf({ track, end }: TrackEnd, tracks: readonly LevelledTrack[]): number {
  const { startElevationMm, endElevationMm } = tracks[track]!
  return end === 'start' ? startElevationMm : endElevationMm
}

function isHeld(a: TrackEnd, b: TrackEnd, tracks: readonly LevelledTrack[]): boolean {
  const holds = (one: TrackEnd, two: TrackEnd) =>
    one.end === 'end' && two.end === 'start' && tracks[one.track]!.before === tracks[two.track]!.name
  return holds(a, b) || holds(b, a)
}
