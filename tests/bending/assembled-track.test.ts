import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { innerRailCreep, oneSettingErrors } from '../../src/bending/assembled-track.ts'
import { railRadii } from '../../src/bending/bends.ts'

describe('assembled track bent at one setting', () => {
  it('misses each rail’s radius by half the distance between them (by hand: 45 mm gauge, 2.8 mm heads)', () => {
    const { outer, inner } = oneSettingErrors(1200, 45, 2.8)
    expect(outer.wantedRadiusMm).toBeCloseTo(1223.9, 9)
    expect(outer.missMm).toBeCloseTo(-23.9, 9)
    expect(outer.missPct).toBeCloseTo((-100 * 23.9) / 1223.9, 9)
    expect(inner.wantedRadiusMm).toBeCloseTo(1176.1, 9)
    expect(inner.missMm).toBeCloseTo(23.9, 9)
    expect(inner.missPct).toBeCloseTo((100 * 23.9) / 1176.1, 9)
  })

  it('lets the inner rail creep by the difference of the rails’ lengths, at any radius and to either side', () => {
    const anyAngle = fc.double({ min: -12, max: 12, noNaN: true })
    fc.assert(
      fc.property(anyAngle, fc.double({ min: 200, max: 9000, noNaN: true }), (turnedRad, radius) => {
        const lengths = (['outer', 'inner'] as const).map(
          (rail) => railRadii(radius, rail, 45, 2.8).radiusMm * Math.abs(turnedRad),
        )
        expect(innerRailCreep(45, 2.8, turnedRad).creepMm).toBeCloseTo(lengths[0]! - lengths[1]!, 8)
      }),
    )
  })

  it('is trimmed at the end that is not held', () => {
    expect(innerRailCreep(45, 2.8, 1)).toMatchObject({ fixedEnd: 'start', trimAt: 'end' })
    expect(innerRailCreep(45, 2.8, 1, 'end')).toMatchObject({ fixedEnd: 'end', trimAt: 'start' })
    expect(innerRailCreep(45, 2.8, 0).creepMm).toBe(0)
  })
})
