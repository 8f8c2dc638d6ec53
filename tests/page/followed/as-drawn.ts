import { expect } from 'vitest'
import type { Followed } from './follow.ts'

/** What a rail may be off anywhere, mm: the wanted accuracy of a plan that is followed with a saw, a bender and a tape. */
export const WITHIN_MM = 1
/** The check on the chord then agrees with what is printed to what is read on a steel rule, mm. */
const READING_MM = 0.5

export function expectAsDrawn(pieces: readonly Followed[]): void {
  expect(pieces.length).toBeGreaterThan(0)
  const off = pieces.filter(
    ({ startOffMm, endOffMm, besideMm, checkOffMm }) =>
      !(
        Math.abs(startOffMm) < WITHIN_MM &&
        Math.abs(endOffMm) < WITHIN_MM &&
        besideMm < WITHIN_MM &&
        checkOffMm < READING_MM
      ),
  )
  expect(off).toEqual([])
}
