import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { arcDepthMm, axisToRollerCentreMm, benderFaults } from '../../../src/bending/roller/roller-bender.ts'
import { RAIL, ROLLS } from '../rails.ts'

describe('a roller bender', () => {
  it('touches head, web or foot (by hand)', () => {
    expect(axisToRollerCentreMm(RAIL, ROLLS)).toBeCloseTo(2.8 + 6, 12)
    expect(axisToRollerCentreMm(RAIL, { ...ROLLS, bearsOn: 'web' })).toBeCloseTo(0.35 + 6, 12)
    expect(axisToRollerCentreMm(RAIL, { ...ROLLS, bearsOn: 'head' })).toBeCloseTo(1.45 + 6, 12)
  })

  it('sets the depth of an arc', () => {
    const anyRadius = fc.double({ min: 60, max: 1e6, noNaN: true })
    fc.assert(
      fc.property(anyRadius, fc.constantFrom('head', 'web', 'foot'), (radius, bearsOn) => {
        const bender = { ...ROLLS, bearsOn } as const
        const depth = arcDepthMm(RAIL, bender, radius)!
        // On the circle: (ρ − h)² + a² = ρ².
        const rho = radius + axisToRollerCentreMm(RAIL, bender)
        expect(Math.hypot(rho - depth, 40) / rho).toBeCloseTo(1, 13)
      }),
    )
  })

  it('has no depth for an arc that would reach round its rollers', () => {
    expect(arcDepthMm(RAIL, ROLLS, 31)).toBeNull()
    expect(arcDepthMm(RAIL, ROLLS, 31.2)).toBeCloseTo(40, 9)
  })

  it('that cannot be built is refused field by field', () => {
    expect(benderFaults(ROLLS)).toEqual([])
    const places = (bender: typeof ROLLS) => benderFaults(bender).map(({ path, code }) => `${path.join('/')} ${code}`)
    expect(places({ ...ROLLS, spanMm: 0, outerRollerRadiusMm: -1 })).toEqual([
      'span out-of-range',
      'outerRollerRadius out-of-range',
    ])
    expect(places({ ...ROLLS, spanMm: 12 })).toEqual(['span contradictory'])
    expect(places({ ...ROLLS, maxPerPassMm: 0, screwPitchMm: Number.NaN })).toEqual([
      'maxPerPass out-of-range',
      'screwPitch out-of-range',
    ])
    expect(benderFaults({ ...ROLLS, maxPerPassMm: null, screwPitchMm: null, outerRollerRadiusMm: 0 })).toEqual([])
  })
})
