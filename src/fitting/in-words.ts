import { toDegrees } from '../measure/angle.ts'
import { formatMm } from '../measure/length.ts'
import type { Change } from './change.ts'

/** What to change, as a sentence without its full stop; elements counted from 1 as people do. */
export function changesInWords(changes: readonly Change[]): string {
  const words = changes.map(changeInWords).join(', ')
  return words.charAt(0).toUpperCase() + words.slice(1)
}

function changeInWords(change: Change): string {
  const element = `element ${change.element + 1}`
  switch (change.field) {
    case 'angle':
      return `make the angle of ${element} ${degrees(change.toRad)} instead of ${degrees(change.fromRad)}`
    case 'length':
      return `make ${element} ${formatMm(change.toMm, 2)} long instead of ${formatMm(change.fromMm, 2)}`
    case 'radius':
      return `make the radius of ${element} ${formatMm(change.toMm, 2)} instead of ${formatMm(change.fromMm, 2)}`
    case 'turn':
      return `turn ${element} to the ${change.to}`
  }
}

function degrees(rad: number): string {
  return `${Number(toDegrees(rad).toFixed(3))}°`
}
