import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Metal, withYield } from '../../src/bending/metal.ts'
import { momentNmm, setCurvature, yieldCurvature } from '../../src/bending/moment-curvature.ts'
import { residualStress } from '../../src/bending/residual-stress.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { elasticLimit, forming, formingCurvature, restingRadiusMm } from '../../src/bending/springback.ts'
import {
  anyMetal,
  anyRadiusMm,
  anyRectangles,
  anySection,
  HARD_BRASS,
  IDEAL,
  LINEAR,
  RAIL,
  THREE_LAWS,
} from './rails.ts'

/** Unloads by the moment, not by the program's own form for the set. */
function unload(metal: Metal, formedRadiusMm: number, section = RAIL): number {
  const back = momentNmm(section, metal, 1 / formedRadiusMm) / (metal.youngsModulusMpa * section.lateralSecondMomentMm4)
  return 1 / (1 / formedRadiusMm - back)
}

describe('forming radius', () => {
  it('unloads to the wanted radius, to 1e-9', () => {
    fc.assert(
      fc.property(anySection, anyMetal, anyRadiusMm, (section, metal, wanted) => {
        const { formingRadiusMm } = forming(section, metal, wanted)
        expect(Math.abs(unload(metal, formingRadiusMm, section) / wanted - 1)).toBeLessThan(1e-9)
        expect(Math.abs(restingRadiusMm(section, metal, formingRadiusMm)! / wanted - 1)).toBeLessThan(1e-9)
      }),
      { numRuns: 1000 },
    )
  })

  it('is the tighter the tighter the wanted radius', () => {
    fc.assert(
      fc.property(anySection, anyMetal, anyRadiusMm, (section, metal, wanted) => {
        const slack = forming(section, metal, 1.01 * wanted).formingRadiusMm
        expect(forming(section, metal, wanted).formingRadiusMm).toBeLessThan(slack)
      }),
    )
  })

  it('is the tighter the higher the yield', () => {
    fc.assert(
      fc.property(anySection, anyMetal, anyRadiusMm, (section, metal, wanted) => {
        const harder = forming(section, withYield(metal, 1.01 * metal.yieldMpa), wanted).formingRadiusMm
        expect(harder).toBeLessThan(forming(section, metal, wanted).formingRadiusMm)
      }),
    )
  })

  it('scales: k times every length gives k times the radius at the same stresses and k³ times the moment', () => {
    const anyScale = fc.double({ min: 0.01, max: 50, noNaN: true })
    fc.assert(
      fc.property(anyRectangles, anyMetal, anyRadiusMm, anyScale, (rectangles, metal, wanted, k) => {
        const small = sectionProperties(rectangles)
        const large = sectionProperties(
          rectangles.map(({ widthMm, heightMm }) => ({ widthMm: k * widthMm, heightMm: k * heightMm })),
        )
        const [a, b] = [forming(small, metal, wanted), forming(large, metal, k * wanted)]
        expect(b.formingRadiusMm / a.formingRadiusMm / k).toBeCloseTo(1, 10)
        expect(b.momentNmm / a.momentNmm / k ** 3).toBeCloseTo(1, 10)
        expect(b.maxStrain / a.maxStrain).toBeCloseTo(1, 10)
        const face = (section: typeof small, radius: number) => residualStress(section, metal, 1 / radius).atFaceMpa
        const [stress, scaled] = [face(small, a.formingRadiusMm), face(large, b.formingRadiusMm)]
        expect(Math.abs(scaled - stress)).toBeLessThan(1e-8 * metal.yieldMpa)
      }),
    )
  })

  it('bends the same to either side, and leaves straight rail alone', () => {
    for (const metal of THREE_LAWS) {
      expect(formingCurvature(RAIL, metal, -1 / 900)).toBe(-formingCurvature(RAIL, metal, 1 / 900))
      expect(formingCurvature(RAIL, metal, 0)).toBe(0)
    }
  })

  it('of an all but straight rail tends to the elastic limit, where there is one', () => {
    for (const metal of [IDEAL, LINEAR]) {
      const limit = elasticLimit(RAIL, metal).radiusMm
      expect(forming(RAIL, metal, 1e15).formingRadiusMm / limit).toBeCloseTo(1, 5)
      expect(forming(RAIL, metal, 1e15).formingRadiusMm).toBeLessThan(limit)
    }
  })

  it('of a metal with no yield to speak of is the wanted radius', () => {
    for (const metal of [IDEAL, HARD_BRASS])
      expect(forming(RAIL, withYield(metal, 1e-6), 700).formingRadiusMm / 700).toBeCloseTo(1, 5)
  })

  it('takes huge and tiny radii', () => {
    for (const metal of THREE_LAWS)
      for (const wanted of [1e-3, 1, 1e12]) {
        const { formingRadiusMm } = forming(RAIL, metal, wanted)
        expect(setCurvature(RAIL, metal, 1 / formingRadiusMm) * wanted).toBeCloseTo(1, 9)
      }
  })

  it('tells the strain beside the elongation (by hand from the forming radius)', () => {
    const formed = forming(RAIL, HARD_BRASS, 600)
    expect(formed.maxStrain).toBeCloseTo(2.8 / formed.formingRadiusMm, 14)
    expect(formed.shareOfElongation).toBeCloseTo(2.8 / formed.formingRadiusMm / 0.23, 14)
    expect(forming(RAIL, IDEAL, 600).shareOfElongation).toBeNull()
    expect(formed.overbendRatio).toBeCloseTo(600 / formed.formingRadiusMm, 14)
  })
})

describe('elastic limit', () => {
  it('is c·E/yield (closed form) and leaves nothing, where the yield point is sharp', () => {
    for (const metal of [IDEAL, LINEAR]) {
      const limit = elasticLimit(RAIL, metal)
      expect(limit.radiusMm).toBeCloseTo((2.8 * 110_300) / 345, 9)
      expect(limit.setShare).toBe(0)
      expect(restingRadiusMm(RAIL, metal, limit.radiusMm)).toBeNull()
      expect(restingRadiusMm(RAIL, metal, 2 * limit.radiusMm)).toBeNull()
      expect(restingRadiusMm(RAIL, metal, 0.99 * limit.radiusMm)).toBeGreaterThan(limit.radiusMm)
    }
  })

  it('of a Ramberg–Osgood metal leaves a stated share', () => {
    const { radiusMm, setShare } = elasticLimit(RAIL, HARD_BRASS)
    expect(1 / radiusMm).toBeCloseTo(yieldCurvature(RAIL, HARD_BRASS), 15)
    expect(setShare).toBeGreaterThan(0.01)
    expect(unload(HARD_BRASS, radiusMm) * setShare).toBeCloseTo(radiusMm, 6)
  })
})
