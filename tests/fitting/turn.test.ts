import { describe, expect, it } from 'vitest'
import { fitsInto, turnOf, widened } from '../../src/fitting/turn.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement } from '../estimate/plans.ts'
import { randomFrom } from '../random.ts'

describe('a turn between two straights', () => {
  it('without easements is an arc', () => {
    expect(turnOf(1500, 0)).toEqual({ radiusMm: 1500, easementMm: 0, easedRad: 0, kMm: 0, qMm: 1500 })
  })

  it('is shifted by e²/24R and begins e/2 before the arc would (setting-out of transition curves, from memory)', () => {
    for (const [radius, e] of [
      [3000, 300],
      [6000, 900],
      [2400, 200],
    ] as const) {
      const { kMm, qMm, easedRad } = turnOf(radius, e)
      expect(qMm - radius).toBeCloseTo(e ** 2 / (24 * radius), 2)
      expect(kMm).toBeCloseTo(e / 2 - e ** 3 / (240 * radius ** 2), 3)
      expect(easedRad).toBeCloseTo(e / radius, 12)
    }
  })

  it('has its centre where it says, from both ends, however far it turns', () => {
    const random = randomFrom(5)
    for (let round = 0; round < 100; round++) {
      const [radius, e] = [800 + 3000 * random(), 100 + 600 * random()]
      const { kMm, qMm, easedRad } = turnOf(radius, e)
      const angle = easedRad + 0.05 + 4 * random()
      const ownDeg = ((angle - easedRad) * 180) / Math.PI
      const elements = [easement(e), arc(radius, ownDeg), easement(e)]
      const { xMm, yMm, headingRad } = placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, elements, false).at(-1)!.end
      const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
      expect(xMm - kMm * cos - qMm * sin).toBeCloseTo(kMm, 8)
      expect(yMm - kMm * sin + qMm * cos).toBeCloseTo(qMm, 8)
      expect(headingRad).toBeCloseTo(angle, 12)
    }
  })

  it('is widened until its arc keeps half of the angle', () => {
    const tight = turnOf(1000, 600)
    expect([fitsInto(tight, 0.6), fitsInto(tight, 0.7)]).toEqual([false, true])
    expect(widened(tight, 0.4)).toEqual(turnOf(3000, 600))
    expect(widened(tight, 1e-5)).toBeNull()
    expect(fitsInto(turnOf(1000, 0), 0)).toBe(false)
  })
})
