import { describe, expect, it } from 'vitest'
import { setCurvature } from '../../src/bending/moment-curvature.ts'
import { springIn } from '../../src/bending/spring-in.ts'
import { elasticLimit } from '../../src/bending/springback.ts'
import { HARD_BRASS, IDEAL, RAIL } from './rails.ts'

describe('rail sprung into a curve', () => {
  it('is held by a couple E·I/R, a force pair on the last two ties (closed form)', () => {
    const sprung = springIn(RAIL, IDEAL, 3000, 45)!
    expect(sprung.endCoupleNmm).toBeCloseTo((110_300 * RAIL.lateralSecondMomentMm4) / 3000, 9)
    expect(sprung.forcePairN * 45).toBeCloseTo(sprung.endCoupleNmm, 9)
    expect(sprung.setShare).toBe(0)
    expect(sprung.setEnds).toEqual({ fromMm: 150, toMm: 300 })
  })

  it('is possible down to the elastic limit and no further', () => {
    const { radiusMm } = elasticLimit(RAIL, IDEAL)
    expect(springIn(RAIL, IDEAL, radiusMm, 45)).not.toBeNull()
    expect(springIn(RAIL, IDEAL, radiusMm * (1 - 1e-9), 45)).toBeNull()
  })

  it('tells the little that stays in a metal without a sharp limit', () => {
    const sprung = springIn(RAIL, HARD_BRASS, 1200, 45)!
    expect(sprung.setShare).toBeCloseTo(1200 * setCurvature(RAIL, HARD_BRASS, 1 / 1200), 14)
    expect(sprung.setShare).toBeLessThan(elasticLimit(RAIL, HARD_BRASS).setShare)
  })
})
