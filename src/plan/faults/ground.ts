import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { TrackDraft } from '../reading/draft.ts'
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
