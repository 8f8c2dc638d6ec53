import type { Fault } from '../../measure/fault.ts'

/** A track whose place is given by another: it starts at the other's end, or has to end at the other's start. */
export interface Link {
  readonly track: number
  readonly field: 'after' | 'before' | 'from' | 'to'
  /** The name of the other track; of the turnout for one that leaves or comes to a turnout. */
  readonly name: string
  /** Undefined if there is no track of that name. */
  readonly other: number | undefined
  readonly path: Fault['path']
}
