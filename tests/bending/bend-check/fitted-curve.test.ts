import { describe, expect, it } from 'vitest'
import { type CurveShape, fittedCurve, ordinatesOf, startAt } from '../../../src/bending/bend-check/fitted-curve.ts'
import { leastSquares } from '../../../src/bending/bend-check/least-squares.ts'
import { levelSteps } from '../../../src/bending/bend-check/level-steps.ts'
import { readingsOf, trackOfCurvature } from './simulated-track.ts'

const SHAPE: CurveShape = {
  stations: 20,
  steps: 2,
  isStraightBefore: true,
  isStraightAfter: true,
  isRounded: true,
  wrong: [],
}

describe('the ordinates of a curve', () => {
  it('are those a string shows on a track of that curvature', () => {
    const [radiusMm, spacing] = [50_000, 250]
    // Curvature changes about stations 4.3 and 14.8, over 2.4 and 0.1 stations.
    const [rise, fall] = [(at: number) => (at - 3.1) / 2.4, (at: number) => (14.85 - at) / 0.1]
    const share = (at: number) => Math.max(0, Math.min(1, rise(at), fall(at)))
    const track = trackOfCurvature((mm) => share(mm / spacing) / radiusMm, 20, spacing)
    // Closed form: the middle ordinate of a chord of two spacings in a circle, s²/2R (nearly).
    const level = spacing ** 2 / (2 * radiusMm)
    const expected = readingsOf(track)
    ordinatesOf(SHAPE, [4.3, 14.8, 2.4, 0.1, level]).forEach((ordinate, n) => {
      expect(Math.abs(ordinate - expected[n]!)).toBeLessThan(0.001 * level)
    })
  })

  it('change at a displaced station and its neighbours, at a wrong reading there alone', () => {
    const flat: CurveShape = { ...SHAPE, stations: 5, steps: 0, isStraightBefore: false, isStraightAfter: false }
    const place: CurveShape = { ...flat, wrong: [{ kind: 'place', station: 2 }] }
    expect(ordinatesOf(place, [7, 4])).toEqual([7, 5, 11, 5, 7])
    expect(ordinatesOf({ ...flat, wrong: [{ kind: 'reading', station: 2 }] }, [7, 4])).toEqual([7, 7, 11, 7, 7])
  })

  it('are found again from the readings they make', () => {
    const readings = ordinatesOf(SHAPE, [4.3, 14.8, 2.4, 1.6, 12])
    const weights = readings.map(() => 1)
    const start = startAt(SHAPE, [4, 15], readings, 1)
    const { values } = fittedCurve(SHAPE, start, readings, weights)
    ;[4.3, 14.8, 2.4, 1.6, 12].forEach((value, k) => {
      expect(values[k]).toBeCloseTo(value, 2)
    })
  })
})

describe('least squares', () => {
  it('of a line are those of the closed form, whatever has no weight', () => {
    // By hand: through (0, 1), (1, 3), (2, 4) the line 7/6 + 3/2·x is the closest.
    const y = [1, 3, 4, 99]
    const found = leastSquares(([a, b]) => y.map((value, x) => value - a! - b! * x), [0, 0], [1, 1, 1, 0], 20)
    expect(found[0]).toBeCloseTo(7 / 6, 5)
    expect(found[1]).toBeCloseTo(1.5, 5)
  })
})

describe('level stretches', () => {
  it('begin where the level changes', () => {
    const found = levelSteps([0, 0, 5, 5, 5, 2, 2, 0, 0], { first: 0, last: 0 }, 3)
    expect(found[0]).toEqual([])
    expect(found[3]).toEqual([2, 5, 7])
  })
})
