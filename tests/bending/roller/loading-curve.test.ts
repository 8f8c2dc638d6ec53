import fc from 'fast-check'
import { expect, it } from 'vitest'
import { momentNmm, setCurvature, yieldCurvature } from '../../../src/bending/moment-curvature.ts'
import { integralsBetween } from '../../../src/bending/numeric/quadrature.ts'
import { LoadingCurve } from '../../../src/bending/roller/loading-curve.ts'
import { anyMetal, anySection, HARD_BRASS, IDEAL, LINEAR, RAIL, SOFT_STAINLESS } from '../rails.ts'

/** Curvatures in yield curvatures, from elastic to far beyond. */
const anyShare = fc.double({ min: Math.log(0.01), max: Math.log(40), noNaN: true }).map(Math.exp)

it('is the law of any rail, and its inverse leads back', () => {
  fc.assert(
    fc.property(anySection, anyMetal, fc.array(anyShare, { minLength: 5, maxLength: 20 }), (section, metal, shares) => {
      const curve = new LoadingCurve(section, metal)
      const yields = yieldCurvature(section, metal)
      for (const share of shares) {
        const k = share * yields
        expect(Math.abs(curve.momentNmm(k) / momentNmm(section, metal, k) - 1)).toBeLessThan(1e-3)
        expect(Math.abs(curve.setPerMm(k) - setCurvature(section, metal, k)) / k).toBeLessThan(1e-3)
        const back = curve.curvatureAt(curve.momentNmm(k), 50 * yields)
        expect(curve.momentNmm(back) / curve.momentNmm(k)).toBeCloseTo(1, 11)
      }
    }),
    { numRuns: 60 },
  )
})

it('of the rails’ metals is within 3e-5, and its integrals within 3e-6 of quadrature', () => {
  for (const metal of [HARD_BRASS, SOFT_STAINLESS, LINEAR, IDEAL]) {
    const curve = new LoadingCurve(RAIL, metal)
    const knees = RAIL.rectangles.map(({ widthMm }) => (2 * metal.yieldMpa) / metal.youngsModulusMpa / widthMm)
    for (let share = 0.05; share < 30; share *= 1.11) {
      const k = share * yieldCurvature(RAIL, metal)
      expect(Math.abs(curve.momentNmm(k) / momentNmm(RAIL, metal, k) - 1)).toBeLessThan(3e-5)
      const edges = [0, ...knees.filter((knee) => knee < k).sort((a, b) => a - b), k]
      const { ofF, ofSquare } = integralsBetween((x) => momentNmm(RAIL, metal, x), edges)
      expect(Math.abs(curve.integralsTo(k).ofMoment / ofF - 1)).toBeLessThan(3e-6)
      expect(Math.abs(curve.integralsTo(k).ofSquare / ofSquare - 1)).toBeLessThan(3e-6)
    }
  }
})

it('does not depend on the order in which it is asked', () => {
  const [up, down] = [new LoadingCurve(RAIL, HARD_BRASS), new LoadingCurve(RAIL, HARD_BRASS)]
  const shares = [0.3, 0.9, 1.1, 2, 5, 11]
  const at = (curve: LoadingCurve) => (share: number) => curve.momentNmm(share * yieldCurvature(RAIL, HARD_BRASS))
  expect(shares.map(at(up))).toEqual(shares.toReversed().map(at(down)).toReversed())
  expect(up.momentNmm(0)).toBe(0)
  expect(up.setPerMm(0)).toBe(0)
  expect(up.curvatureAt(0, 1)).toBe(0)
})
