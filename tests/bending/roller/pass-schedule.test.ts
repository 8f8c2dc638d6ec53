import { describe, expect, it } from 'vitest'
import { passSchedule, straightEnds } from '../../../src/bending/roller/pass-schedule.ts'
import { ROLLS } from '../rails.ts'

describe('passes', () => {
  it('go to the depth in equal steps no deeper than allowed (by hand)', () => {
    expect(passSchedule(ROLLS, 1.2)).toEqual([
      { pass: 1, depthMm: expect.closeTo(0.4, 12), turns: expect.closeTo(0.32, 12) },
      { pass: 2, depthMm: expect.closeTo(0.8, 12), turns: expect.closeTo(0.64, 12) },
      { pass: 3, depthMm: 1.2, turns: expect.closeTo(0.96, 12) },
    ])
  })

  it('are not one too many where the limit divides the depth', () => {
    expect(passSchedule({ ...ROLLS, maxPerPassMm: 0.1 }, 0.3)).toHaveLength(3)
  })

  it('are one without a limit, and tell no turns without a pitch', () => {
    expect(passSchedule({ ...ROLLS, maxPerPassMm: null, screwPitchMm: null }, 1.2)).toEqual([
      { pass: 1, depthMm: 1.2, turns: null },
    ])
  })
})

describe('straight ends', () => {
  it('are half a span each, with three ways out', () => {
    expect(straightEnds({ ...ROLLS, spanMm: 65 })).toEqual({
      eachMm: 32.5,
      extraLengthMm: 65,
      treatments: ['trim', 'finish-by-hand', 'join-and-roll-through'],
    })
  })
})
