import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { firstDoubling, nearlyZero, rootBetween } from '../../../src/bending/numeric/root.ts'

describe('rootBetween', () => {
  it('finds roots that are known (closed form)', () => {
    expect(rootBetween((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 15)
    expect(rootBetween((x) => Math.cos(x), 0, 3)).toBeCloseTo(Math.PI / 2, 15)
    expect(rootBetween((x) => x ** 30 - 1e-20, 0, 1)).toBeCloseTo(10 ** (-2 / 3), 14)
    expect(rootBetween((x) => (x - 0.3) ** 3, 0, 1)).toBeCloseTo(0.3, 5)
  })

  it('finds a step, and an end that is the root itself', () => {
    expect(rootBetween((x) => (x < 0.7 ? -1 : 1), 0, 1)).toBeCloseTo(0.7, 14)
    expect(rootBetween((x) => x - 1, 1, 4)).toBe(1)
    expect(rootBetween((x) => x - 4, 1, 4)).toBe(4)
  })

  it('finds any root of a steep power in few steps, whichever way round it is bracketed', () => {
    const anyRoot = fc.double({ min: 1e-6, max: 1e6, noNaN: true })
    fc.assert(
      fc.property(anyRoot, fc.integer({ min: 1, max: 31 }), fc.boolean(), (root, power, turned) => {
        let steps = 0
        const f = (x: number) => {
          steps++
          return (x / root) ** power - 1
        }
        const [low, high] = [root / 3, root * 2.1]
        const found = turned ? rootBetween(f, high, low) : rootBetween(f, low, high)
        expect(found / root).toBeCloseTo(1, 13)
        expect(steps).toBeLessThan(60)
      }),
    )
  })

  it('takes far fewer steps to a smooth root than halving the bracket, some fifty', () => {
    for (const [f, low, high, root] of [
      [(x: number) => x * x - 2, 0, 2, Math.SQRT2],
      [Math.cos, 0, 3, Math.PI / 2],
      [(x: number) => Math.exp(x) - 3, 0, 5, Math.log(3)],
      [Math.log, 0.1, 7, 1],
      [(x: number) => 1 / x - 0.3, 0.1, 90, 10 / 3],
    ] as const) {
      let steps = 0
      const counted = (x: number) => {
        steps++
        return f(x)
      }
      expect(rootBetween(counted, low, high)).toBeCloseTo(root, 14)
      expect(steps).toBeLessThan(16)
    }
  })

  it('refuses a bracket without a change of sign', () => {
    expect(() => rootBetween((x) => x * x + 1, -1, 1)).toThrow(RangeError)
    expect(() => rootBetween(() => Number.NaN, -1, 1)).toThrow(RangeError)
    expect(() => rootBetween((x) => -x * x - 1, -1, 1)).toThrow(RangeError)
    expect(() => rootBetween((x) => (x < 0 ? -1 : Number.NaN), -1, 1)).toThrow(RangeError)
  })
})

describe('firstDoubling', () => {
  it('doubles until it is there, or gives up', () => {
    expect(firstDoubling(3, (x) => x >= 20)).toBe(24)
    expect(firstDoubling(3, (x) => x >= 2)).toBe(3)
    expect([firstDoubling(3, (x) => x >= 20, 2), firstDoubling(3, (x) => x >= 20, 3)]).toEqual([null, 24])
    expect(firstDoubling(1, () => false)).toBeNull()
  })
})

describe('nearlyZero', () => {
  it('stops as soon as the function is small enough, in few steps (closed form)', () => {
    let asked = 0
    const cubed = (x: number) => {
      asked++
      return x ** 3 - 2
    }
    expect(Math.abs(cubed(nearlyZero(cubed, 0, 10, 1e-6)))).toBeLessThanOrEqual(1e-6)
    expect(asked).toBeLessThan(30)
    expect(nearlyZero((x) => 3 * x - 6, 0, 10, 1e-12)).toBeCloseTo(2, 12)
  })

  it('is an end that is near enough, or has no zero beyond it', () => {
    expect(nearlyZero((x) => x + 1, 0, 5, 1e-6)).toBe(0)
    expect(nearlyZero((x) => x - 5, 0, 5, 1e-6)).toBe(5)
    expect(nearlyZero((x) => x - 9, 0, 5, 1e-6)).toBe(5)
  })

  it('ends at a step', () => {
    const stair = (x: number) => (x < 0.3 ? -1 : 1)
    expect(nearlyZero(stair, 0, 1, 1e-9)).toBeCloseTo(0.3, 6)
  })
})
