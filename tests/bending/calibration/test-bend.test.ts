import { describe, expect, it } from 'vitest'
import { readTestBend, restingRadiusOfReading, type TestBend } from '../../../src/bending/calibration/test-bend.ts'
import { HARD_BRASS, LINEAR, RAIL, ROLLS } from '../rails.ts'

const rail = { section: RAIL, metal: HARD_BRASS, bender: ROLLS }

function refusal(test: TestBend, changed: Partial<typeof rail> | { bender: null } = {}): string {
  const read = readTestBend(test, { ...rail, ...changed })
  return 'fault' in read ? `${read.fault.path.join('/')} ${read.fault.code}` : 'read'
}

describe('a test bend', () => {
  it('is read by its radii as they are', () => {
    expect(readTestBend({ formedRadiusMm: 400, restingRadiusMm: 900 }, rail)).toEqual({
      bend: { kind: 'radii', formedRadiusMm: 400, restingRadiusMm: 900 },
    })
  })

  it('is read by depth or turns: 6 mm over 300 mm is a face of 1878 mm, the line half a head further out (by hand)', () => {
    const bend = {
      kind: 'pass',
      depthMm: 1.5,
      chordMm: 300,
      ordinateMm: 6,
      restingRadiusMm: expect.closeTo(300 ** 2 / 48 + 3 + 1.45, 9),
    }
    expect(readTestBend({ depthMm: 1.5, chordMm: 300, ordinateMm: 6 }, rail)).toEqual({ bend })
    expect(readTestBend({ turns: 1.2, chordMm: 300, ordinateMm: 6 }, rail)).toEqual({ bend })
    expect(restingRadiusOfReading(RAIL, 300, 0)).toBe(Number.POSITIVE_INFINITY)
  })

  it('that rests as tight as it was formed, or tighter, is impossible', () => {
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: 400 })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: 900 })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: -2000 })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: Number.NaN })).not.toBe('read')
  })

  it('that rests straight never yielded', () => {
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: Number.POSITIVE_INFINITY })).toBe(
      'restingRadius impossible-test-bend',
    )
    expect(refusal({ depthMm: 1, chordMm: 300, ordinateMm: 0 })).toBe('ordinate impossible-test-bend')
  })

  it('that springs back less than its own tangent modulus makes it is impossible', () => {
    const metal = { ...LINEAR, hardening: { model: 'linear', tangentModulusMpa: 11_030 } } as const
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: 999 }, { metal })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadiusMm: 900, restingRadiusMm: 1001 }, { metal })).toBe('read')
  })

  it('tighter than the rail’s half width, or at no depth, chord or ordinate there can be, is out of range', () => {
    expect(refusal({ formedRadiusMm: 2.7, restingRadiusMm: 900 })).toBe('formedRadius out-of-range')
    expect(refusal({ formedRadiusMm: Number.POSITIVE_INFINITY, restingRadiusMm: 900 })).toBe(
      'formedRadius out-of-range',
    )
    expect(refusal({ depthMm: 0, chordMm: 300, ordinateMm: 6 })).toBe('depth out-of-range')
    expect(refusal({ turns: 40, chordMm: 300, ordinateMm: 6 })).toBe('turns out-of-range')
    expect(refusal({ depthMm: 1, chordMm: 0, ordinateMm: 6 })).toBe('chord out-of-range')
    expect(refusal({ depthMm: 1, chordMm: 300, ordinateMm: -6 })).toBe('ordinate out-of-range')
    expect(refusal({ depthMm: 1, chordMm: 300, ordinateMm: 151 })).toBe('ordinate out-of-range')
  })

  it('by depth wants a bender, by turns its pitch', () => {
    expect(refusal({ depthMm: 1, chordMm: 300, ordinateMm: 6 }, { bender: null })).toBe('depth contradictory')
    expect(refusal({ turns: 1, chordMm: 300, ordinateMm: 6 }, { bender: null })).toBe('turns contradictory')
    const noPitch = { bender: { ...ROLLS, screwPitchMm: null } }
    expect(refusal({ turns: 1, chordMm: 300, ordinateMm: 6 }, noPitch as never)).toBe('turns contradictory')
    expect(refusal({ depthMm: 1, chordMm: 300, ordinateMm: 6 }, noPitch as never)).toBe('read')
  })
})
