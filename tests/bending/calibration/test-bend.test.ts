import { describe, expect, it } from 'vitest'
import { readTestBend, restingRadiusOfReading } from '../../../src/bending/calibration/test-bend.ts'
import type { TestBend } from '../../../src/plan/rows/rail.ts'
import { HARD_BRASS, LINEAR, RAIL, ROLLS } from '../rails.ts'

const rail = { section: RAIL, metal: HARD_BRASS, bender: ROLLS }

function refusal(test: TestBend, changed: Partial<typeof rail> | { bender: null } = {}): string {
  const read = readTestBend(test, { ...rail, ...changed })
  return 'fault' in read ? `${read.fault.path.join('/')} ${read.fault.code}` : 'read'
}

describe('a test bend', () => {
  it('is read by its radii as they are', () => {
    expect(readTestBend({ formedRadius: 400, restingRadius: 900 }, rail)).toEqual({
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
    expect(readTestBend({ depth: 1.5, chord: 300, ordinate: 6 }, rail)).toEqual({ bend })
    expect(readTestBend({ turns: 1.2, chord: 300, ordinate: 6 }, rail)).toEqual({ bend })
    expect(restingRadiusOfReading(RAIL, 300, 0)).toBe(Number.POSITIVE_INFINITY)
  })

  it('that rests as tight as it was formed, or tighter, is impossible', () => {
    expect(refusal({ formedRadius: 900, restingRadius: 400 })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadius: 900, restingRadius: 900 })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadius: 900, restingRadius: -2000 })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadius: 900, restingRadius: Number.NaN })).not.toBe('read')
  })

  it('that rests straight never yielded', () => {
    expect(refusal({ formedRadius: 900, restingRadius: Number.POSITIVE_INFINITY })).toBe(
      'restingRadius impossible-test-bend',
    )
    expect(refusal({ depth: 1, chord: 300, ordinate: 0 })).toBe('ordinate impossible-test-bend')
  })

  it('that springs back less than its own tangent modulus makes it is impossible', () => {
    const metal = { ...LINEAR, hardening: { model: 'linear', tangentModulusMpa: 11_030 } } as const
    expect(refusal({ formedRadius: 900, restingRadius: 999 }, { metal })).toBe('restingRadius impossible-test-bend')
    expect(refusal({ formedRadius: 900, restingRadius: 1001 }, { metal })).toBe('read')
  })

  it('tighter than the rail’s half width, or at no depth, chord or ordinate there can be, is out of range', () => {
    expect(refusal({ formedRadius: 2.7, restingRadius: 900 })).toBe('formedRadius out-of-range')
    expect(refusal({ formedRadius: Number.POSITIVE_INFINITY, restingRadius: 900 })).toBe('formedRadius out-of-range')
    expect(refusal({ depth: 0, chord: 300, ordinate: 6 })).toBe('depth out-of-range')
    expect(refusal({ turns: 40, chord: 300, ordinate: 6 })).toBe('turns out-of-range')
    expect(refusal({ depth: 1, chord: 0, ordinate: 6 })).toBe('chord out-of-range')
    expect(refusal({ depth: 1, chord: 300, ordinate: -6 })).toBe('ordinate out-of-range')
    expect(refusal({ depth: 1, chord: 300, ordinate: 151 })).toBe('ordinate out-of-range')
  })

  it('by depth wants a bender, by turns its pitch', () => {
    expect(refusal({ depth: 1, chord: 300, ordinate: 6 }, { bender: null })).toBe('depth contradictory')
    expect(refusal({ turns: 1, chord: 300, ordinate: 6 }, { bender: null })).toBe('turns contradictory')
    const noPitch = { bender: { ...ROLLS, screwPitchMm: null } }
    expect(refusal({ turns: 1, chord: 300, ordinate: 6 }, noPitch as never)).toBe('turns contradictory')
    expect(refusal({ depth: 1, chord: 300, ordinate: 6 }, noPitch as never)).toBe('read')
  })
})
