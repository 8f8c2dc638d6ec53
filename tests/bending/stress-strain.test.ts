import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { stressMpa } from '../../src/bending/stress-strain.ts'
import { anyMetal, HARD_BRASS, IDEAL, LINEAR } from './rails.ts'

const anyStrain = fc.double({ min: Math.log(1e-12), max: Math.log(2), noNaN: true }).map(Math.exp)

describe('stress at a strain', () => {
  it('put back into the Ramberg–Osgood law gives the strain again', () => {
    fc.assert(
      fc.property(anyMetal, anyStrain, (metal, strain) => {
        fc.pre(metal.hardening.model === 'ramberg-osgood')
        const n = metal.hardening.model === 'ramberg-osgood' ? metal.hardening.n : 0
        const s = stressMpa(metal, strain)
        expect((s / metal.youngsModulusMpa + 0.002 * (s / metal.yieldMpa) ** n) / strain).toBeCloseTo(1, 13)
      }),
      { numRuns: 500 },
    )
  })

  it('is the yield at the proof strain, yield/E + 0.002 (by definition)', () => {
    expect(stressMpa(HARD_BRASS, 345 / 110_300 + 0.002)).toBeCloseTo(345, 10)
  })

  it('of linear and perfectly plastic metals is two straight lines (by hand)', () => {
    expect(stressMpa(IDEAL, 0.001)).toBeCloseTo(110.3, 10)
    expect(stressMpa(IDEAL, 0.9)).toBeCloseTo(345, 10)
    expect(stressMpa(LINEAR, 345 / 110_300 + 0.01)).toBeCloseTo(345 + 27, 10)
  })

  it('is odd and rises with the strain', () => {
    fc.assert(
      fc.property(anyMetal, anyStrain, (metal, strain) => {
        expect(stressMpa(metal, -strain)).toBe(-stressMpa(metal, strain))
        expect(stressMpa(metal, 1.01 * strain)).toBeGreaterThanOrEqual(stressMpa(metal, strain))
      }),
    )
    expect(stressMpa(HARD_BRASS, 0)).toBe(0)
  })
})
