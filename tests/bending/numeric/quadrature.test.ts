import { describe, expect, it } from 'vitest'
import { integralsBetween } from '../../../src/bending/numeric/quadrature.ts'

describe('integralsBetween', () => {
  it('integrates a function and its square (closed form)', () => {
    const exponential = integralsBetween(Math.exp, [0, 1])
    expect(exponential.ofF).toBeCloseTo(Math.E - 1, 14)
    expect(exponential.ofSquare).toBeCloseTo((Math.E ** 2 - 1) / 2, 13)
    const power = integralsBetween((x) => x ** 6, [0, 0.5, 2])
    expect(power.ofF / (2 ** 7 / 7)).toBeCloseTo(1, 13)
    expect(power.ofSquare / (2 ** 13 / 13)).toBeCloseTo(1, 14)
  })

  it('finds its way round a kink and a knee', () => {
    const kink = (edges: number[]) => integralsBetween((x) => Math.min(x, 0.3), edges)
    expect(kink([0, 1]).ofF).toBeCloseTo(0.045 + 0.21, 12)
    expect(kink([0, 1]).ofSquare).toBeCloseTo(0.009 + 0.063, 12)
    const step = integralsBetween((x) => (x < 0.3 ? 1 : 2), [0, 1])
    expect([step.ofF, step.ofSquare]).toEqual([expect.closeTo(1.7, 12), expect.closeTo(3.1, 12)])
    expect(kink([0, 0.3, 1]).ofF).toBeCloseTo(0.045 + 0.21, 14)
    expect(kink([0, 0.3, 1]).ofSquare).toBeCloseTo(0.009 + 0.063, 14)
    const knee = integralsBetween((x) => 1 / (1 + x ** 40), [0, 3])
    expect(knee.ofF).toBeCloseTo(Math.PI / 40 / Math.sin(Math.PI / 40), 7)
  })

  it('asks 15 times where the function is smooth, and not much more often where it has to halve', () => {
    const asked = (f: (x: number) => number) => {
      let times = 0
      integralsBetween(
        (x) => {
          times++
          return f(x)
        },
        [0, 1],
      )
      return times
    }
    expect(asked(Math.exp)).toBe(15)
    // Halved about log₂(1e7) times around the kink, two panels of 15 each time.
    expect(asked((x) => Math.min(x, 0.3))).toBeLessThan(30 * 24)
  })

  it('is nothing over no stretch', () => {
    expect(integralsBetween(Math.exp, [2, 2])).toEqual({ ofF: 0, ofSquare: 0 })
  })
})
