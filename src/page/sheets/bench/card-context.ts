import type { Bend } from '../../../estimate/answer.ts'
import type { LengthsIn } from '../../show-length.ts'
import { elementNumber, spoken } from '../../words.ts'
import type { CurvePlace } from './curves-by-radius.ts'

/** Shared by all bench cards of one plan. */
export interface CardContext {
  readonly lengthsIn: LengthsIn
  readonly severalTracks: boolean
  /** The name of a temper, by its id. */
  readonly temperName: (id: string) => string
}

export function railName(rail: Bend['rail']): string {
  return rail === 'outer' ? 'Outer' : 'Inner'
}

/** `element 2`, `elements 2, 4 and 1.3`. */
export function elementsAt(places: readonly CurvePlace[], { severalTracks }: CardContext): string {
  const numbers = places.map(({ track, element }) => elementNumber(element, track, severalTracks))
  return `${numbers.length === 1 ? 'element' : 'elements'} ${spoken(numbers)}`
}
