import type { Fault } from '../../measure/fault.ts'
import { LIMITS } from './plan.ts'
import { listAt } from './value-at.ts'

/**
 * Which lists of a plan are too long. Such a plan is refused for its size alone: looking through all of it is what the
 * limits are there to prevent.
 */
export function oversizeFaults(raw: unknown): Fault[] {
  const tracks = listAt(raw, ['tracks'])
  const elements = tracks.reduce<number>((sum, track) => sum + listAt(track, ['elements']).length, 0)
  return [
    ...tooMany(['chords'], listAt(raw, ['chords']).length, LIMITS.chords),
    ...tooMany(['supplies', 'sticks'], listAt(raw, ['supplies', 'sticks']).length, LIMITS.sticks),
    ...tooMany(['tracks'], tracks.length, LIMITS.tracks),
    ...tooMany(['tracks'], elements, LIMITS.elements, 'elements in all tracks together'),
    ...tracks.flatMap((track, index) =>
      tooMany(['tracks', index, 'gradeLine'], listAt(track, ['gradeLine']).length, LIMITS.gradePoints),
    ),
  ]
}

function tooMany(path: Fault['path'], count: number, most: number, what = 'entries'): Fault[] {
  if (count <= most) return []
  return [
    { path, code: 'too-many', detail: `${count} ${what}; ${most} is the most`, hint: 'make it more than one plan' },
  ]
}
