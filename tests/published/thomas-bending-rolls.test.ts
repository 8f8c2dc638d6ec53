import { describe, expect, it } from 'vitest'
import { straightEnds } from '../../src/bending/roller/pass-schedule.ts'
import type { RollerBender } from '../../src/bending/roller/roller-bender.ts'

/**
 * Thomas, "Workshop Bending Rolls", *Model Engineer*, October 1976: about half a roller span at each end of a bar stays
 * nearly straight.
 */
const bender: RollerBender = {
  spanMm: 80,
  outerRollerRadiusMm: 6,
  bearsOn: 'foot',
  mode: 'rolled',
  maxPerPassMm: null,
  screwPitchMm: null,
}

describe('Thomas’s straight ends', () => {
  it('are half a span each, a whole span if both are cut off (published)', () => {
    expect(straightEnds(bender)).toMatchObject({ eachMm: 40, extraLengthMm: 80 })
    expect(straightEnds({ ...bender, spanMm: 65 })).toMatchObject({ eachMm: 32.5, extraLengthMm: 65 })
  })
})
