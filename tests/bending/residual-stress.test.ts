import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { momentNmm, yieldCurvature } from '../../src/bending/moment-curvature.ts'
import { residualStress } from '../../src/bending/residual-stress.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { stressMpa } from '../../src/bending/stress-strain.ts'
import { anyMetal, anySection, HARD_BRASS, IDEAL, RAIL } from './rails.ts'

const timesYield = fc.double({ min: Math.log(1.05), max: Math.log(50), noNaN: true }).map(Math.exp)

describe('residual stress', () => {
  it('is pressure at the stretched face and tension inside, and nothing in between is greater', () => {
    fc.assert(
      fc.property(anySection, anyMetal, timesYield, (section, metal, times) => {
        const k = times * yieldCurvature(section, metal)
        const found = residualStress(section, metal, k)
        const moment = momentNmm(section, metal, k)
        const at = (y: number) => stressMpa(metal, k * y) - (moment * y) / section.lateralSecondMomentMm4
        const sampled = Array.from({ length: 400 }, (_, i) => at((section.extremeFibreMm * (i + 1)) / 400))
        const slack = 1e-9 * metal.yieldMpa
        expect(found.atFaceMpa).toBeLessThan(0)
        expect(found.insideMpa).toBeGreaterThan(0)
        expect(found.insideAtMm).toBeLessThan(section.extremeFibreMm)
        expect(Math.max(...sampled)).toBeLessThanOrEqual(found.insideMpa + slack)
        expect(Math.min(...sampled)).toBeGreaterThanOrEqual(found.atFaceMpa - slack)
      }),
    )
  })

  it('is none in rail that did not yield', () => {
    const found = residualStress(RAIL, IDEAL, 0.5 * yieldCurvature(RAIL, IDEAL))
    expect(found.atFaceMpa).toBeCloseTo(0, 9)
    expect(found.insideMpa).toBeCloseTo(0, 9)
    expect(found.unloadsElastically).toBe(true)
  })

  it('tells when a face yields backwards: a wide foot on a thick web (shape factor over 2, closed form)', () => {
    const flanged = sectionProperties([
      { widthMm: 20, heightMm: 1 },
      { widthMm: 6, heightMm: 8 },
    ])
    expect(flanged.shapeFactor).toBeGreaterThan(2)
    expect(flanged.shapeFactor).toBeLessThan(2.2)
    const k = 100 * yieldCurvature(flanged, IDEAL)
    expect(residualStress(flanged, IDEAL, k)).toMatchObject({ unloadsElastically: false })
    expect(residualStress(RAIL, HARD_BRASS, 5 * yieldCurvature(RAIL, HARD_BRASS)).unloadsElastically).toBe(true)
  })
})
