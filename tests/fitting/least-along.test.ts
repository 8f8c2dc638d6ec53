import { describe, expect, it } from 'vitest'
import { leastAlong } from '../../src/fitting/least-along.ts'
import { randomFrom } from '../random.ts'

describe('the least along stretches', () => {
  it('is what a look at every millimetre finds', () => {
    const random = randomFrom(7)
    for (let round = 0; round < 40; round++) {
      const [deep, wide, at, most] = [200 * random(), 150 + 500 * random(), 4000 * random(), 500 + 4000 * random()]
      const look = ([mm]: readonly number[]) => Math.abs(mm! - at) - deep * Math.exp(-(((mm! - most / 3) / wide) ** 2))
      const found = leastAlong([most], look)!
      let least = Number.POSITIVE_INFINITY
      for (let mm = 0; mm <= most; mm++) least = Math.min(least, look([mm]))
      expect(found.value).toBeCloseTo(least, 9)
      expect(found.value).toBe(look(found.atMm))
    }
  })

  it('of two is found on the slant and at the edges (by hand)', () => {
    const slant = leastAlong([3000, 2000], ([x, y]) => Math.abs(x! - y! - 700) + 1e-3 * Math.abs(x! - 1900))
    expect(slant!.atMm).toEqual([1900, 1200])
    expect(leastAlong([3000, 2000], ([x, y]) => x! - y!)!.atMm).toEqual([0, 2000])
    expect(leastAlong([0.4], () => 3)).toEqual({ atMm: [0], value: 3 })
    expect(leastAlong([900], () => Number.POSITIVE_INFINITY)).toBeNull()
  })

  it('is found in a bounded number of looks', () => {
    let looks = 0
    leastAlong([1e5, 1e5], ([x, y]) => {
      looks++
      return Math.hypot(x! - 54_321, y! - 12_345)
    })
    expect(looks).toBeLessThan(2_500)
  })
})
