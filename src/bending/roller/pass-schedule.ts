import { piecesToCover } from '../../measure/counting.ts'
import { type Answer, component, count, length, nullable, number } from '../../plan/fields/answer.ts'
import type { RollerBender } from './roller-bender.ts'

/** Longer schedules are not listed: they are not practical. */
export const MOST_PASSES = 100

export const PASS = component('Pass', 'One pass through the rollers.', {
  pass: count('Counted from 1.'),
  depthMm: length('Depth from where the rollers just touch the straight rail, mm.'),
  turns: nullable(
    number('Turns of the screw, from where the rollers just touch the straight rail; null if the pitch is not given.'),
  ),
})

export type Pass = Answer<typeof PASS>

/**
 * Passes to a depth in equal steps, none deeper than the bender's limit. Depths are counted from the straight bar
 * throughout, so the screw is turned on from its last position. By hand: tests/bending/roller/pass-schedule.test.ts.
 */
export function passSchedule(bender: RollerBender, depthMm: number): Pass[] {
  const count = passesTo(bender, depthMm)
  return Array.from({ length: count }, (_, index) => {
    const reachedMm = (depthMm * (index + 1)) / count
    return { pass: index + 1, depthMm: reachedMm, turns: turnsOf(bender, reachedMm) }
  })
}

/** How many passes it takes to a depth. */
export function passesTo({ maxPerPassMm }: RollerBender, depthMm: number): number {
  return maxPerPassMm === null ? 1 : Math.max(1, piecesToCover(depthMm, maxPerPassMm))
}

export function turnsOf(bender: RollerBender, depthMm: number): number | null {
  return bender.screwPitchMm === null ? null : depthMm / bender.screwPitchMm
}

/**
 * The two ends of a stick that the rollers cannot bend: about half the span each stays nearly straight (Thomas,
 * "Workshop Bending Rolls", *Model Engineer*, October 1976). Three treatments: cut them off, finish them by hand, or
 * join the sticks before bending and roll the joint through.
 */
export interface StraightEnds {
  readonly eachMm: number
  /** How much longer a stick must be so that both ends can be cut off. */
  readonly extraLengthMm: number
  readonly treatments: readonly ['trim', 'finish-by-hand', 'join-and-roll-through']
}

export function straightEnds(bender: RollerBender): StraightEnds {
  const eachMm = bender.spanMm / 2
  return { eachMm, extraLengthMm: 2 * eachMm, treatments: ['trim', 'finish-by-hand', 'join-and-roll-through'] }
}
