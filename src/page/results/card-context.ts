import type { Bend } from '../../estimate/answer.ts'
import type { LengthsIn } from '../show-length.ts'

/** What all bench cards of one plan have in common. */
export interface CardContext {
  readonly lengthsIn: LengthsIn
  readonly severalTracks: boolean
  /** The name of a temper, by its id. */
  readonly temperName: (id: string) => string
}

export function railName(rail: Bend['rail']): string {
  return rail === 'outer' ? 'Outer' : 'Inner'
}
