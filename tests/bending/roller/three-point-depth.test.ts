import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metal } from '../../../src/bending/metal.ts'
import { momentNmm, setCurvature, yieldCurvature } from '../../../src/bending/moment-curvature.ts'
import { arcDepthMm, axisToRollerCentreMm, type RollerBender } from '../../../src/bending/roller/roller-bender.ts'
import { elasticDepthMm, threePointDepthMm } from '../../../src/bending/roller/three-point-depth.ts'
import { formingCurvature } from '../../../src/bending/springback.ts'
import { anyMetal, anyRadiusMm, HARD_BRASS, IDEAL, LINEAR, RAIL, ROLLS, SOFT_STAINLESS, THREE_LAWS } from '../rails.ts'

const PRESSED: RollerBender = { ...ROLLS, mode: 'pressed' }

/** Curvature of loaded rail under a moment, by halving. */
function curvatureUnder(metal: Metal, moment: number, most: number): number {
  let [low, high] = [0, most]
  for (let i = 0; i < 80; i++) {
    const k = (low + high) / 2
    if (momentNmm(RAIL, metal, k) < moment) low = k
    else high = k
  }
  return low
}

/**
 * Walks out from the centre roller in small steps of the half span: heading and deflection from the curvature under the
 * straight-line moment. The half span is what brings the outer roller's centre to its place.
 */
function sideByWalking(metal: Metal, k0: number, unloading: boolean): number {
  const offset = axisToRollerCentreMm(RAIL, ROLLS)
  const m0 = momentNmm(RAIL, metal, k0)
  const stiffness = metal.youngsModulusMpa * RAIL.lateralSecondMomentMm4
  const stays = setCurvature(RAIL, metal, k0)
  const steps = 4000
  let [slope, deflection] = [0, 0]
  for (let i = 0; i < steps; i++) {
    const moment = m0 * (1 - (i + 0.5) / steps)
    const k = unloading ? stays + moment / stiffness : curvatureUnder(metal, moment, k0)
    deflection += slope / steps + k / 2 / steps ** 2
    slope += k / steps
  }
  const s = 40 / (1 + offset * slope)
  return s * s * deflection + (offset * (s * slope) ** 2) / 2
}

describe('depth under three rollers', () => {
  it('is what walking along the bent rail gives', () => {
    for (const metal of [...THREE_LAWS, SOFT_STAINLESS]) {
      const k0 = formingCurvature(RAIL, metal, 1 / 900)
      const entry = sideByWalking(metal, k0, false)
      const exit = sideByWalking(metal, k0, true)
      expect(threePointDepthMm(RAIL, metal, PRESSED, k0) / entry).toBeCloseTo(1, 6)
      expect(threePointDepthMm(RAIL, metal, ROLLS, k0) / ((entry + exit) / 2)).toBeCloseTo(1, 6)
    }
  })

  it('is two thirds of the arc’s where nothing yields (closed form)', () => {
    for (const bender of [ROLLS, PRESSED])
      for (const metal of [IDEAL, LINEAR]) {
        const k0 = 1e-3 * yieldCurvature(RAIL, metal)
        expect(threePointDepthMm(RAIL, metal, bender, k0) / arcDepthMm(RAIL, bender, 1 / k0)!).toBeCloseTo(2 / 3, 5)
      }
  })

  it('is 0.63 to 0.67 of the arc’s for rolled Ramberg–Osgood metals (derived)', () => {
    const metals: Metal[] = [
      HARD_BRASS,
      SOFT_STAINLESS,
      { ...HARD_BRASS, yieldMpa: 110, hardening: { model: 'ramberg-osgood', n: 4.5 } },
      { ...HARD_BRASS, youngsModulusMpa: 68_900, yieldMpa: 276, hardening: { model: 'ramberg-osgood', n: 29.5 } },
    ]
    for (const metal of metals)
      for (const wanted of [600, 1200, 2438, 5000]) {
        const k0 = formingCurvature(RAIL, metal, 1 / wanted)
        const share = threePointDepthMm(RAIL, metal, ROLLS, k0) / arcDepthMm(RAIL, ROLLS, 1 / k0)!
        expect(share).toBeGreaterThan(0.63)
        expect(share).toBeLessThan(0.675)
      }
  })

  it('in soft metal at a small radius is even below the arc of the final radius (derived)', () => {
    const soft: Metal = { ...HARD_BRASS, yieldMpa: 110, hardening: { model: 'ramberg-osgood', n: 4.5 } }
    const depth = threePointDepthMm(RAIL, soft, ROLLS, formingCurvature(RAIL, soft, 1 / 400))
    expect(depth).toBeLessThan(arcDepthMm(RAIL, ROLLS, 400)!)
  })

  it('stays below the arc’s, and rolling takes more than pressing', () => {
    fc.assert(
      fc.property(anyMetal, anyRadiusMm, (metal, wanted) => {
        const k0 = formingCurvature(RAIL, metal, 1 / Math.max(wanted, 300))
        const rolled = threePointDepthMm(RAIL, metal, ROLLS, k0)
        const pressed = threePointDepthMm(RAIL, metal, PRESSED, k0)
        expect(pressed).toBeLessThanOrEqual(rolled * (1 + 1e-9))
        expect(rolled).toBeLessThan(arcDepthMm(RAIL, ROLLS, 1 / k0) ?? 40)
      }),
      { numRuns: 60 },
    )
  })

  it('is nothing for nothing', () => {
    expect(threePointDepthMm(RAIL, IDEAL, ROLLS, 0)).toBe(0)
  })

  it('of the elastic limit is a third of κ·a², less what the rollers’ size takes (closed form)', () => {
    const k = yieldCurvature(RAIL, IDEAL)
    const s = 40 / (1 + (8.8 * k) / 2)
    expect(elasticDepthMm(RAIL, IDEAL, ROLLS)).toBeCloseTo(s * s * (k / 3 + (8.8 * k * k) / 8), 10)
  })
})
