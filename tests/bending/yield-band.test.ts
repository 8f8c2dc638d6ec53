import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { withYield } from '../../src/bending/metal.ts'
import { forming } from '../../src/bending/springback.ts'
import { formingBand, formingOverTempers } from '../../src/bending/yield-band.ts'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { anyMetal, anyRadiusMm, anySection, HARD_BRASS, RAIL } from './rails.ts'

describe('the band of forming radii', () => {
  it('is that of a yield 15 % up and down', () => {
    const band = formingBand(RAIL, HARD_BRASS, 1500)
    expect(band.lowMm).toBeCloseTo(forming(RAIL, withYield(HARD_BRASS, 345 * 1.15), 1500).formingRadiusMm, 9)
    expect(band.highMm).toBeCloseTo(forming(RAIL, withYield(HARD_BRASS, 345 * 0.85), 1500).formingRadiusMm, 9)
  })

  it('holds the nominal figure, whatever the rail', () => {
    fc.assert(
      fc.property(anySection, anyMetal, anyRadiusMm, (section, metal, wanted) => {
        const { lowMm, highMm } = formingBand(section, metal, wanted)
        const { formingRadiusMm } = forming(section, metal, wanted)
        expect(lowMm).toBeLessThan(formingRadiusMm)
        expect(highMm).toBeGreaterThan(formingRadiusMm)
      }),
    )
  })

  it('narrows to a calibrated yield’s own band', () => {
    const wide = formingBand(RAIL, HARD_BRASS, 1500)
    const narrow = formingBand(RAIL, HARD_BRASS, 1500, { lowMpa: 340, highMpa: 352 })
    expect(narrow.lowMm).toBeGreaterThan(wide.lowMm)
    expect(narrow.highMm).toBeLessThan(wide.highMm)
  })
})

describe('a rail of unknown temper', () => {
  it('gets the range over its material’s tempers, each with its own band', () => {
    const brass = MATERIALS.find(({ id }) => id === 'brass')!
    const range = formingOverTempers(RAIL, brass, 1500)
    expect(range.tempers.map(({ temper }) => temper)).toEqual(brass.tempers.map(({ id }) => id))
    expect(range.tempers[0]!.formingRadiusMm).toBeCloseTo(forming(RAIL, HARD_BRASS, 1500).formingRadiusMm, 9)
    expect(range.tempers[0]!.band).toEqual(formingBand(RAIL, HARD_BRASS, 1500))
    const radii = range.tempers.map(({ formingRadiusMm }) => formingRadiusMm)
    expect([range.lowMm, range.highMm]).toEqual([Math.min(...radii), Math.max(...radii)])
    expect(range.highMm / range.lowMm).toBeGreaterThan(1.5)
  })

  it('has no range over a single temper', () => {
    const steel = formingOverTempers(RAIL, MATERIALS.find(({ id }) => id === 'steel')!, 1500)
    expect(steel.lowMm).toBe(steel.highMm)
  })
})
