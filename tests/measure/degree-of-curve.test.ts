import { describe, expect, it } from 'vitest'
import { degreeOfRadius, radiusOfDegree } from '../../src/measure/degree-of-curve.ts'

describe('degree of curve', () => {
  it('closed form: 180° has the chord for its diameter, 60° for its radius, 90° a square in the circle', () => {
    expect(radiusOfDegree(180, 1000)).toBeCloseTo(500, 9)
    expect(radiusOfDegree(60, 1000)).toBeCloseTo(1000, 9)
    expect(radiusOfDegree(90, 1000)).toBeCloseTo(1000 / Math.SQRT2, 9)
  })

  it('tiny degrees are C/D, with D in radians', () => {
    expect(radiusOfDegree(1e-6, 100) / (100 / ((1e-6 * Math.PI) / 180))).toBeCloseTo(1, 12)
  })

  it('back and forth, and none for a chord that does not fit into the circle', () => {
    for (const degree of [1e-3, 0.5, 7, 33.25, 120, 179]) {
      expect(degreeOfRadius(radiusOfDegree(degree, 610), 610)! / degree).toBeCloseTo(1, 9)
    }
    expect(degreeOfRadius(500, 1000)).toBe(180)
    expect(degreeOfRadius(500, 1000.001)).toBeNull()
  })
})
