import { describe, expect, it } from 'vitest'
import { momentNmm, setCurvature } from '../../src/bending/moment-curvature.ts'
import { setEndsForceN, springIn } from '../../src/bending/spring-in.ts'
import { elasticLimit } from '../../src/bending/springback.ts'
import { HARD_BRASS, IDEAL, RAIL, SOFT_STAINLESS } from './rails.ts'

describe('rail sprung into a curve', () => {
  it('is held by a couple E·I/R, a force pair on the last two ties (closed form)', () => {
    const sprung = springIn(RAIL, IDEAL, 3000, 45)
    expect(sprung.endCoupleNmm).toBeCloseTo((110_300 * RAIL.lateralSecondMomentMm4) / 3000, 9)
    expect(sprung.forcePairN * 45).toBeCloseTo(sprung.endCoupleNmm, 9)
    expect(sprung.setShare).toBe(0)
    expect(sprung.setEnds).toEqual({ fromMm: 150, toMm: 300 })
  })

  it('takes less of a couple where part of it sets: E·I/R less that share (closed form)', () => {
    const sprung = springIn(RAIL, SOFT_STAINLESS, 1200, 45)
    const elasticNmm = (193_000 * RAIL.lateralSecondMomentMm4) / 1200
    expect(sprung.setShare).toBeGreaterThan(0.1)
    expect(sprung.endCoupleNmm / (elasticNmm * (1 - sprung.setShare))).toBeCloseTo(1, 12)
    expect(sprung.endCoupleNmm).toBeCloseTo(momentNmm(RAIL, SOFT_STAINLESS, 1 / 1200), 9)
  })

  it('tells the little that stays in a metal without a sharp limit', () => {
    const sprung = springIn(RAIL, HARD_BRASS, 1200, 45)
    expect(sprung.setShare).toBeCloseTo(1200 * setCurvature(RAIL, HARD_BRASS, 1 / 1200), 14)
    expect(sprung.setShare).toBeLessThan(elasticLimit(RAIL, HARD_BRASS).setShare)
  })

  it('pushes at a joint with the pair, and with set ends over their 150 mm (closed form)', () => {
    const sprung = springIn(RAIL, IDEAL, 3000, 45)
    expect(sprung.jointForceN).toBe(sprung.forcePairN)
    expect(sprung.jointForceSetEndsN).toBeCloseTo((sprung.forcePairN * 45) / 150, 9)
    expect(setEndsForceN(3000, 45)).toBe(20)
    expect(setEndsForceN(3000, 150)).toBe(20)
  })

  it('has set ends no shorter than from tie to tie (closed form)', () => {
    expect(setEndsForceN(3000, 200)).toBe(15)
    const { jointForceN, jointForceSetEndsN } = springIn(RAIL, IDEAL, 3000, 400)
    expect(jointForceSetEndsN).toBe(jointForceN)
  })

  it('pushes twice as hard in stainless as in brass, in the ratio of the moduli', () => {
    const [brass, stainless] = [HARD_BRASS, { ...IDEAL, youngsModulusMpa: 193_000 }].map((metal) =>
      springIn(RAIL, metal, 9000, 45),
    )
    expect(stainless!.jointForceSetEndsN / brass!.jointForceSetEndsN).toBeCloseTo(193 / 110.3, 6)
    expect(stainless!.jointKinkRad).toBe(brass!.jointKinkRad)
  })

  it('kinks at a joint by what straight rail over ties that do not move does (derived: three-moment equation)', () => {
    const [radiusMm, spacingMm, ties] = [3000, 45, 40]
    const moments = momentsOverTies(ties)
    // Slope at the last tie against the line to the next one, with no moment at the end: M₁·s/(6·E·I).
    const railRad = (moments[1]! * spacingMm) / (6 * radiusMm)
    // The circle turns by s/2 from that line to its tangent at the tie, and by as much to the joint between two ties.
    const halfKinkRad = spacingMm / radiusMm - railRad
    expect(springIn(RAIL, IDEAL, radiusMm, spacingMm).jointKinkRad / (2 * halfKinkRad)).toBeCloseTo(1, 9)
    // And the last of such ties takes 3 − √3 times the pair.
    expect(moments[1]!).toBeCloseTo(3 - Math.sqrt(3), 9)
  })
})

/**
 * Moments, in units of E·I/R, of a straight rail held on a circle of radius R by equally spaced ties that do not move,
 * from its free end: Mᵢ₋₁ + 4·Mᵢ + Mᵢ₊₁ = 6, M₀ = 0, and 1 far inside. Solved by elimination from the far side.
 */
function momentsOverTies(ties: number): number[] {
  const slope = Array<number>(ties + 1).fill(0)
  const start = Array<number>(ties + 1).fill(1)
  for (let i = ties - 1; i > 0; i--) {
    slope[i] = -1 / (4 + slope[i + 1]!)
    start[i] = (6 - start[i + 1]!) / (4 + slope[i + 1]!)
  }
  const moments = [0]
  for (let i = 1; i < ties; i++) moments.push(start[i]! + slope[i]! * moments[i - 1]!)
  return moments
}
