import { describe, expect, it } from 'vitest'
import {
  bellyLever,
  type CarOnGrades,
  endLever,
  offGradeMm,
  shortestVerticalCurves,
} from '../../src/track/shortest-vertical-curve.ts'

const CAR: CarOnGrades = { lengthMm: 600, truckCentresMm: 400, couplerMm: 20, undersideMm: 4 }

/** The height of a track that turns by `change` over `curveMm` around 0. */
function heightAt(x: number, change: number, curveMm: number): number {
  const half = curveMm / 2
  if (x <= -half) return 0
  if (x >= half) return change * x
  return (change * (x + half) ** 2) / (2 * curveMm)
}

/** How far a place `beyondMm` off the middle of a car is off the rails, or off the next car's coupler, at most. */
function swept(
  car: CarOnGrades,
  change: number,
  curveMm: number,
  measure: (lineAt: (x: number) => number, middleMm: number) => number,
) {
  let most = 0
  for (let middleMm = -1500; middleMm <= 1500; middleMm += 1) {
    const [rear, front] = [middleMm - car.truckCentresMm / 2, middleMm + car.truckCentresMm / 2]
    const [low, high] = [heightAt(rear, change, curveMm), heightAt(front, change, curveMm)]
    const lineAt = (x: number) => low + ((high - low) * (x - rear)) / car.truckCentresMm
    most = Math.max(most, Math.abs(measure(lineAt, middleMm)))
  }
  return most
}

const LENGTHS = [1e-6, 50, 200, 399, 401, 520, 700, 2000]

describe('a car where the grade changes', () => {
  it.each(LENGTHS)('has its middle as far off the rails as the formula says, over %s mm', (curveMm) => {
    const numeric = swept(CAR, 0.04, curveMm, (lineAt, middle) => lineAt(middle) - heightAt(middle, 0.04, curveMm))
    expect(numeric).toBeCloseTo(offGradeMm(0.04, curveMm, bellyLever(CAR)), 3)
  })

  it.each(LENGTHS)('has its couplers as far from the next as the formula says, over %s mm', (curveMm) => {
    const spanMm = CAR.lengthMm + 2 * CAR.couplerMm
    const next = (middle: number) => {
      const [rear, front] = [middle - CAR.truckCentresMm / 2, middle + CAR.truckCentresMm / 2]
      const [low, high] = [heightAt(rear, 0.04, curveMm), heightAt(front, 0.04, curveMm)]
      return (x: number) => low + ((high - low) * (x - rear)) / CAR.truckCentresMm
    }
    const numeric = swept(CAR, 0.04, curveMm, (lineAt, middle) => {
      const x = middle + spanMm / 2
      return lineAt(x) - next(middle + spanMm)(x)
    })
    expect(numeric).toBeCloseTo(offGradeMm(0.04, curveMm, endLever(CAR, CAR.couplerMm)), 2)
  })

  it('is off by C²/8R and o(C + o)/2R far from the ends of a long curve', () => {
    // Closed form, R = L/A = 5000/0.05.
    const radius = 100_000
    expect(offGradeMm(0.05, 5000, bellyLever(CAR))).toBeCloseTo(400 ** 2 / 8 / radius, 12)
    expect(offGradeMm(0.05, 5000, endLever(CAR, 20))).toBeCloseTo((120 * 520) / 2 / radius, 12)
  })
})

describe('the shortest vertical curve', () => {
  it.each([0.5, 1, 2, 4, 8])('brings a car just as far off as is allowed, for a hump of %s %%', (pct) => {
    for (const { reason, lengthMm } of shortestVerticalCurves(-pct, CAR, 1.5)) {
      const lever = reason === 'belly' ? bellyLever(CAR) : endLever(CAR, CAR.couplerMm)
      const allowed = reason === 'belly' ? 4 : 1.5
      if (lengthMm === 0) expect(offGradeMm(pct / 100, 0, lever)).toBeLessThanOrEqual(allowed)
      else expect(offGradeMm(pct / 100, lengthMm, lever)).toBeCloseTo(allowed, 9)
    }
  })

  it('is for the belly on a hump, for the ends in a sag, and for what is known alone', () => {
    const reasons = (pct: number, car: CarOnGrades, couplerMm: number | null) =>
      shortestVerticalCurves(pct, car, couplerMm).map(({ reason }) => reason)
    expect(reasons(-3, CAR, 2)).toEqual(['couplers', 'belly'])
    expect(reasons(3, CAR, 2)).toEqual(['couplers', 'ends'])
    expect(reasons(3, CAR, null)).toEqual(['ends'])
    expect(reasons(3, { ...CAR, undersideMm: null }, null)).toEqual([])
    expect(reasons(0, CAR, 2)).toEqual([])
  })

  it('is none where a car without overhang has its couplers over its trucks', () => {
    const car = { ...CAR, lengthMm: 400, couplerMm: 0 }
    expect(shortestVerticalCurves(-5, car, 1)[0]).toEqual({ reason: 'couplers', lengthMm: 0 })
  })
})
