import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { PlanDraft, TrackDraft } from '../reading/draft.ts'
import type { GroundPlace } from '../rows/earthworks.ts'
import { lengthOf } from './breaks.ts'

/** The ground of a track: from station to station along it, two of one station at most, from one place to another. */
export function groundFaults(track: TrackDraft, at: Fault['path']): Fault[] {
  const { ground = [] } = track
  const lengthMm = lengthOf(track)
  const faults = ground.flatMap((point, index): Fault[] => {
    if (!point) return []
    const path = [...at, 'ground', index, 'at']
    const [before, beforeThat] = [ground[index - 1], ground[index - 2]]
    if (before && exceeds(before.at, point.at))
      return [
        {
          path,
          code: 'out-of-order',
          detail: `station ${formatMm(point.at, 3)} comes before ${formatMm(before.at, 3)}`,
          hint: 'list the points of the ground in order along the track',
        },
      ]
    if (before?.at === point.at && beforeThat?.at === point.at)
      return [
        {
          path,
          code: 'contradictory',
          detail: `there are more than two points at station ${formatMm(point.at, 3)}`,
          hint: 'a step takes two: the ground before it and after it',
        },
      ]
    if (lengthMm === null || !exceeds(point.at, lengthMm)) return []
    return [
      {
        path,
        code: 'out-of-range',
        detail: `station ${formatMm(point.at, 3)} lies beyond the end of the track at ${formatMm(lengthMm, 3)}`,
        hint: 'stations are measured along the centre line from the start of the track',
      },
    ]
  })
  const [first, last] = [ground[0], ground.at(-1)]
  if (faults.length > 0 || !first || !last || exceeds(last.at, first.at)) return faults
  return [
    {
      path: [...at, 'ground'],
      code: 'too-few',
      detail: 'the ground is known at one station alone',
      hint: 'give its elevation at two stations or more',
    },
  ]
}

/** The ground of a whole plan: no place twice, and not all of them in one line. */
export function groundPlaceFaults({ ground = [] }: PlanDraft): Fault[] {
  const seen = new Map<string, number>()
  const twice = ground.flatMap((place, index): Fault[] => {
    if (!place) return []
    const key = `${place.x} ${place.y}`
    const before = seen.get(key)
    seen.set(key, before ?? index)
    if (before === undefined) return []
    return [
      {
        path: ['ground', index],
        code: 'contradictory',
        detail: `this is the place of point ${before + 1} again`,
        hint: 'give each place once; for a step give two places some millimetres apart',
      },
    ]
  })
  const [first, ...others] = ground
  if (twice.length > 0 || !first || others.length < 2 || others.some((place) => !place)) return twice
  const far = others.reduce((most, each) => (apart(first, each!) > apart(first, most!) ? each : most))!
  const size = apart(first, far)
  const beside = (place: GroundPlace) =>
    Math.abs((far.x - first.x) * (place.y - first.y) - (place.x - first.x) * (far.y - first.y)) / size
  if (others.some((place) => beside(place!) > IN_LINE * size)) return []
  return [
    {
      path: ['ground'],
      code: 'contradictory',
      detail: 'all places of the ground lie in one line',
      hint: 'give places on either side of the track, or the ground of the track by its stations',
    },
  ]
}

/** Places this share of their distance beside a line are on it. */
const IN_LINE = 1e-6

function apart(one: GroundPlace, other: GroundPlace): number {
  return Math.hypot(other.x - one.x, other.y - one.y)
}
