import { plainDecimal } from '../../../measure/plain-decimal.ts'
import { type DrawnElement, isSpecial } from '../../../plan/elements.ts'

/**
 * Decimals that are kept: a millionth of a millimetre, and an angle that moves the end of a long arc by no more than
 * that.
 */
const MM_DECIMALS = 6
const DEG_DECIMALS = 9

/**
 * A track as one word (see `readCompactTrack`), lengths in millimetres to a millionth, angles to 1e-9°. Labels are left
 * out. Throws a RangeError where a track has a turnout or crossing (see `isCompact`). 40 elements of up to 100 m take less than 1,300 characters.
 */
export function compactTrack(elements: readonly DrawnElement[]): string {
  return elements.map(wordOf).join('_')
}

/** Whether a track can be written so: turnouts and crossings have no word. */
export function isCompact(elements: readonly DrawnElement[]): boolean {
  return !elements.some(isSpecial)
}

function wordOf(element: DrawnElement): string {
  if (isSpecial(element)) throw new RangeError(`a ${element.kind} cannot be written in one word`)
  if (element.kind !== 'arc') return `${element.kind === 'tangent' ? 'S' : 'E'}${mm(element.length)}`
  const { angle, length, turn, radius } = element
  const extent = angle == null ? `l${mm(length!)}` : `a${decimal(angle, DEG_DECIMALS)}`
  return `${turn === 'left' ? 'L' : 'R'}r${mm(radius)}-${extent}`
}

function mm(value: number): string {
  return decimal(value, MM_DECIMALS)
}

/** A value that would be rounded to zero is written in full. */
function decimal(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals))
  return plainDecimal(rounded === 0 ? value : rounded).replace('.', 'p')
}
