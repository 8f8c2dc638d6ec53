import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { BendCheckInput } from './types.ts'

const MOST_READINGS = 500
const LONGEST_MM = 1_000_000

type Place = readonly (string | number)[]

/** Every fault of an input, with its place in the request. Empty: it can be checked. */
export function bendCheckFaults(input: BendCheckInput): Fault[] {
  return [
    ...lengthFaults(input.chordMm, ['chord']),
    ...readingFaults(input),
    ...radiusFaults(input),
    ...proposedFaults(input),
    ...(input.spacingMm === undefined ? [] : lengthFaults(input.spacingMm, ['spacing'])),
    ...notNegativeFaults(input.resolutionMm, LONGEST_MM, ['resolution']),
    ...notNegativeFaults(input.tolerancePct, 100, ['tolerancePct']),
    ...fixedFaults(input),
    ...notNegativeFaults(input.maximumThrowMm, LONGEST_MM, ['maximumThrow']),
  ]
}

function lengthFaults(lengthMm: number, path: Place): Fault[] {
  if (lengthMm > 0 && lengthMm <= LONGEST_MM) return []
  return [outOfRange(path, `it must be over 0 and at most ${formatMm(LONGEST_MM)}`)]
}

function notNegativeFaults(value: number | undefined, most: number, path: Place): Fault[] {
  if (value === undefined || (value >= 0 && value <= most)) return []
  return [outOfRange(path, `it must be between 0 and ${most}`)]
}

function readingFaults({ readingsMm, chordMm }: BendCheckInput): Fault[] {
  if (readingsMm.length > MOST_READINGS)
    return [
      {
        path: ['readings'],
        code: 'too-many',
        detail: `${readingsMm.length} readings; at most ${MOST_READINGS} can be checked together`,
        hint: 'check the curve in parts that overlap on a straight or in a body',
      },
    ]
  if (readingsMm.every((reading) => reading === null))
    return [{ path: ['readings'], code: 'too-few', detail: 'there is no reading to check' }]
  return readingsMm.flatMap((reading, n) => (reading === null ? [] : ordinateFaults(reading, chordMm, ['readings', n])))
}

/** An ordinate of half the chord is a half circle; a straight chord cannot measure beyond it. */
function ordinateFaults(ordinateMm: number, chordMm: number, path: Place): Fault[] {
  if (!Number.isFinite(ordinateMm)) return [outOfRange(path, 'it must be a finite length')]
  if (!exceeds(Math.abs(ordinateMm), chordMm / 2)) return []
  return [
    outOfRange(
      path,
      `an ordinate of ${formatMm(ordinateMm)} over a chord of ${formatMm(chordMm)} is more than a half circle`,
      'check the unit; a reading is the middle ordinate, not the radius',
    ),
  ]
}

function radiusFaults({ radiusMm, chordMm }: BendCheckInput): Fault[] {
  if (radiusMm === undefined) return []
  if (!(radiusMm > 0 && Number.isFinite(radiusMm))) return [outOfRange(['radius'], 'it must be over 0')]
  if (!exceeds(chordMm, 2 * radiusMm)) return []
  return [
    {
      path: ['radius'],
      code: 'contradictory',
      detail: `a chord of ${formatMm(chordMm)} does not fit in a circle of radius ${formatMm(radiusMm)}`,
      hint: 'use a shorter chord',
    },
  ]
}

function proposedFaults({ proposedMm, readingsMm, chordMm }: BendCheckInput): Fault[] {
  if (proposedMm === undefined) return []
  const faults = proposedMm.flatMap((ordinate, n) => ordinateFaults(ordinate, chordMm, ['proposed', n]))
  if (proposedMm.length !== readingsMm.length)
    faults.unshift({
      path: ['proposed'],
      code: 'contradictory',
      detail: `${proposedMm.length} proposed ordinates for ${readingsMm.length} readings`,
      hint: 'give one proposed ordinate for every station',
    })
  return faults
}

function fixedFaults({ fixed = [], readingsMm }: BendCheckInput): Fault[] {
  return fixed.flatMap((station, n): Fault[] => {
    if (!(Number.isInteger(station) && station >= 0 && station < readingsMm.length))
      return [
        outOfRange(
          ['fixed', n],
          `there is no station ${station}: stations are numbered from 0 to ${readingsMm.length - 1}`,
        ),
      ]
    if (fixed.indexOf(station) === n) return []
    return [{ path: ['fixed', n], code: 'contradictory', detail: `station ${station} is listed twice` }]
  })
}

function outOfRange(path: Place, detail: string, hint?: string): Fault {
  return { path, code: 'out-of-range', detail, ...(hint === undefined ? {} : { hint }) }
}
