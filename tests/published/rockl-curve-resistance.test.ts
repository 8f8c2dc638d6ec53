import { expect, test } from 'vitest'
import { curveResistanceMm } from '../../src/hauling/resistance.ts'

/*
 * Röckl's formula for standard gauge, from memory: w = 650/(R − 55) kg a tonne, R in metres, from 300 m up. It is of another
 * form and from other tests, so the two are only held to be of one size: within a third, with wheelbases of 1.8 to 2.5 m.
 */
const rockl = (radiusM: number) => 650 / (radiusM - 55)

test.each([300, 400, 500, 700, 1000])('curve resistance at %s m radius is of the size Röckl found', (radiusM) => {
  for (const wheelbaseMm of [1800, 2500]) {
    const kgPerTonne = (1000 * curveResistanceMm(1435, wheelbaseMm)) / (1000 * radiusM)
    expect(kgPerTonne / rockl(radiusM)).toBeGreaterThan(2 / 3)
    expect(kgPerTonne / rockl(radiusM)).toBeLessThan(4 / 3)
  }
})
