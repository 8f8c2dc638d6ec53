import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { formatCelsius } from '../../measure/temperature.ts'
import { elementLengthMm, isSpecial } from '../elements.ts'
import type { TrackDraft } from '../reading/draft.ts'
import type { ClimateInput, JointsInput } from '../rows/joints.ts'
import type { Break } from '../rows/track.ts'

/** Breaks must be on their track, in order, each station once; a loop's start and end are one place. */
export function breakFaults(track: TrackDraft, at: Fault['path']): Fault[] {
  const faults: Fault[] = []
  const lengthMm = lengthOf(track)
  let last: Break | null = null
  track.breaks?.forEach((point, index) => {
    if (!point) return
    const path = [...at, 'breaks', index, 'at']
    if (last && !exceeds(point.at, last.at))
      faults.push({
        path,
        code: 'out-of-order',
        detail: `station ${formatMm(point.at, 3)} does not come after ${formatMm(last.at, 3)}`,
        hint: 'list the breaks in order along the track, each station once',
      })
    else if (lengthMm !== null && exceeds(point.at, lengthMm))
      faults.push({
        path,
        code: 'out-of-range',
        detail: `station ${formatMm(point.at, 3)} lies beyond the end of the track at ${formatMm(lengthMm, 3)}`,
        hint: 'stations are measured along the centre line from the start of the track',
      })
    else if (track.closed && lengthMm !== null && point.at >= lengthMm - LENGTH_SLACK_MM)
      faults.push({
        path,
        code: 'out-of-range',
        detail: `station ${formatMm(point.at, 3)} is where the loop comes back to its start`,
        hint: 'use station 0 for that place',
      })
    last = point
  })
  return faults
}

/** Stretches of a track, without joints or with their own grade: each from a station to a later one, on the track. */
export function stretchFaults(track: TrackDraft, list: 'keepOut' | 'limits', at: Fault['path']): Fault[] {
  const lengthMm = lengthOf(track)
  return (track[list] ?? []).flatMap((stretch, index): Fault[] => {
    if (!stretch) return []
    const path = [...at, list, index]
    if (!exceeds(stretch.to, stretch.from))
      return [
        {
          path: [...path, 'to'],
          code: 'out-of-order',
          detail: `station ${formatMm(stretch.to, 3)} does not come after ${formatMm(stretch.from, 3)}`,
          hint: 'give the earlier station first',
        },
      ]
    if (lengthMm === null || !exceeds(stretch.from, lengthMm)) return []
    return [
      {
        path: [...path, 'from'],
        code: 'out-of-range',
        detail: `station ${formatMm(stretch.from, 3)} lies beyond the end of the track at ${formatMm(lengthMm, 3)}`,
        hint: 'stations are measured along the centre line from the start of the track',
      },
    ]
  })
}

/** Along the centre line; null while an element is unreadable, and with turnouts, whose length is worked out later. */
export function lengthOf({ elements }: TrackDraft): number | null {
  let lengthMm = 0
  for (const element of elements) {
    if (element === null || isSpecial(element)) return null
    lengthMm += elementLengthMm(element)
  }
  return elements.length > 0 ? lengthMm : null
}

/** Contradictions between climate and joints. */
export function jointFaults(climate: Partial<ClimateInput> | undefined, joints: JointsInput | undefined): Fault[] {
  const faults: Fault[] = []
  const { coldest: coldestC, hottest: hottestC } = climate ?? {}
  if (coldestC !== undefined && hottestC !== undefined && coldestC > hottestC)
    faults.push({
      path: ['climate', 'coldest'],
      code: 'contradictory',
      detail: `the coldest, ${formatCelsius(coldestC)}, is hotter than the hottest, ${formatCelsius(hottestC)}`,
      hint: 'both are temperatures of the air; a number is °C, "85 F" is Fahrenheit',
    })
  if (joints?.held && joints.kind !== 'clamped')
    faults.push({
      path: ['joints', 'held'],
      code: 'contradictory',
      detail: 'rail that slides in its joiners cannot be held',
      hint: 'add "kind": "clamped", or leave out held',
    })
  if (joints?.arrangement === 'square' && joints.stagger !== undefined)
    faults.push({
      path: ['joints', 'stagger'],
      code: 'contradictory',
      detail: 'joints that are opposite each other cannot be staggered',
      hint: 'leave out stagger, or "arrangement": "square"',
    })
  return faults
}
