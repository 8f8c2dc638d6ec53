import { exceeds, LENGTH_SLACK_MM, piecesToCover } from '../measure/counting.ts'
import { type Answer, length, list, nullable, object } from '../plan/fields/answer.ts'
import { railDistanceAt } from '../track/rails.ts'
import { type JointedTrack, SIDES, type Side } from './joints.ts'

/** A stretch of clamped track that moves as one. */
export const CLAMPED_LENGTH = object({
  fromMm: length(
    'Station on the centre line, mm. On a loop the last stretch may pass the start; then toMm is less than fromMm.',
  ),
  toMm: length(),
  leftMm: length('Length of the left rail, mm.'),
  rightMm: length(),
  expansionJointsAtMm: nullable(
    list(length()),
    'Stations for expansion joints that would make it short enough, mm; empty if it is short enough, null if they are too many to list.',
  ),
})

export type ClampedLength = Answer<typeof CLAMPED_LENGTH>

/** More than this in one stretch means that a figure is wrong; they are not listed. */
const MOST_PARTS = 1000

/**
 * Clamped track from one expansion joint, turnout or end to the next. A stretch that is too long is divided
 * evenly into as few parts as possible on both rails. A loop without any of these grows as a ring: it has no end that
 * would move, and needs no joint. An open end counts like any other, because something usually stands beyond it.
 *
 * @param longestMm the longest rail that may move as one; null: no limit
 */
export function clampedLengths(track: JointedTrack, longestMm: number | null): ClampedLength[] {
  const { closed, lengthMm, breaks } = track
  const dividers = breaks
    .filter(({ kind }) => kind === 'expansion-joint' || kind === 'turnout')
    .map(({ at: atMm }) => atMm)
    .filter((atMm) => closed || (exceeds(atMm, 0) && exceeds(lengthMm, atMm)))
  const ring = closed && dividers.length === 0
  if (ring) return [{ fromMm: 0, toMm: lengthMm, ...railsMm(track, 0, lengthMm), expansionJointsAtMm: [] }]
  const ends = closed ? [...dividers, dividers[0]! + lengthMm] : [0, ...dividers, lengthMm]
  return ends.slice(1).map((toMm, index) => {
    const fromMm = ends[index]!
    const atMm = longestMm === null ? [] : dividedAt(track, fromMm, toMm, longestMm)
    return {
      fromMm,
      toMm: onTrack(track, toMm),
      ...railsMm(track, fromMm, toMm),
      expansionJointsAtMm: atMm === null ? null : atMm.map((mm) => onTrack(track, mm)).sort((a, b) => a - b),
    }
  })
}

function dividedAt(track: JointedTrack, fromMm: number, toMm: number, longestMm: number): number[] | null {
  const { leftMm, rightMm } = railsMm(track, fromMm, toMm)
  const fewest = piecesToCover(Math.max(leftMm, rightMm), longestMm)
  // Curves in both directions spread a rail unevenly along the centre line, so a few more stretches may be needed.
  for (let parts = Math.max(1, fewest); parts <= MOST_PARTS; parts++) {
    const stations = Array.from({ length: parts + 1 }, (_, n) => fromMm + ((toMm - fromMm) * n) / parts)
    const fits = stations.slice(1).every((untilMm, index) => {
      const rails = railsMm(track, stations[index]!, untilMm)
      return !exceeds(Math.max(rails.leftMm, rails.rightMm), longestMm)
    })
    if (fits) return stations.slice(1, -1)
  }
  return null
}

function railsMm(track: JointedTrack, fromMm: number, toMm: number) {
  const along = (side: Side, stationMm: number) => {
    const { lengthMm } = track.rails[side]
    const laps = stationMm > track.lengthMm + LENGTH_SLACK_MM ? 1 : 0
    return laps * lengthMm + railDistanceAt(track.rails[side], stationMm - laps * track.lengthMm)
  }
  const [leftMm, rightMm] = SIDES.map((side) => along(side, toMm) - along(side, fromMm)) as [number, number]
  return { leftMm, rightMm }
}

function onTrack({ closed, lengthMm }: JointedTrack, stationMm: number): number {
  return closed && stationMm >= lengthMm ? stationMm - lengthMm : stationMm
}
