import { describe, expect, it } from 'vitest'
import { overhangOn } from '../../src/room/overhang.ts'
import { randomFrom } from '../random.ts'

/** A car placed on a circle about the origin, its trucks on it, as a straight sweep along its sides finds its reach. */
function swept(R: number, { C, L, W }: { C: number; L: number; W: number }) {
  const towards = Math.acos(C / 2 / R)
  const y = R * Math.sin(towards)
  const along = Array.from({ length: 20_001 }, (_, index) => -L / 2 + (L * index) / 20_000)
  const off = (x: number, side: number) => Math.hypot(x, y + side) - R
  return {
    inside: -Math.min(...along.map((x) => off(x, 0))),
    end: off(L / 2, 0),
    corner: Math.max(...along.map((x) => off(x, W / 2))) - W / 2,
  }
}

describe('overhang', () => {
  it('is what a car placed on the circle shows', () => {
    const random = randomFrom(7)
    for (let each = 0; each < 200; each++) {
      const L = 100 + 900 * random()
      const C = L * (0.3 + 0.7 * random())
      const R = L * (1 + 9 * random())
      const W = 60 + 90 * random()
      const { insideMm, endMm, outsideCornerMm } = overhangOn(R, { lengthMm: L, truckCentresMm: C, widthMm: W })
      const car = swept(R, { C, L, W })
      expect(insideMm).toBeCloseTo(car.inside, 8)
      expect(endMm).toBeCloseTo(car.end, 8)
      expect(outsideCornerMm).toBeCloseTo(car.corner, 8)
    }
  })

  it('has its ends on the curve where the trucks are at the ends', () => {
    expect(overhangOn(2000, { lengthMm: 400, truckCentresMm: 400, widthMm: 100 }).endMm).toBe(0)
  })

  it('loses no digit on a curve that is nearly straight', () => {
    const { insideMm } = overhangOn(1e7, { lengthMm: 600, truckCentresMm: 400, widthMm: 100 })
    // Closed form: the series C²/8R + C⁴/128R³.
    expect(insideMm).toBeCloseTo(400 ** 2 / 8e7 + 400 ** 4 / 128e21, 15)
  })
})
