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
    expect(kink([0, 1]).ofF).toBeCloseTo(0.045 + 0.21, 7)
    expect(kink([0, 1]).ofSquare).toBeCloseTo(0.009 + 0.063, 7)
    expect(kink([0, 0.3, 1]).ofF).toBeCloseTo(0.045 + 0.21, 14)
    expect(kink([0, 0.3, 1]).ofSquare).toBeCloseTo(0.009 + 0.063, 14)
    const knee = integralsBetween((x) => 1 / (1 + x ** 40), [0, 3])
    expect(knee.ofF).toBeCloseTo(Math.PI / 40 / Math.sin(Math.PI / 40), 7)
  })

  it('is nothing over no stretch', () => {
    expect(integralsBetween(Math.exp, [2, 2])).toEqual({ ofF: 0, ofSquare: 0 })
  })
})
