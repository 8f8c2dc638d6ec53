import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metal } from '../../src/bending/metal.ts'
import { loadedTo, momentNmm, setCurvature, yieldCurvature } from '../../src/bending/moment-curvature.ts'
import { type SectionProperties, sectionProperties } from '../../src/bending/section-properties.ts'
import { anyMetal, anySection, RAIL, THREE_LAWS } from './rails.ts'

/** Stress by halving the bracket, so that nothing of the program's own solution is used. */
function stressByBisection({ youngsModulusMpa: E, yieldMpa, hardening }: Metal, strain: number): number {
  if (hardening.model !== 'ramberg-osgood') {
    const slope = hardening.model === 'linear' ? hardening.tangentModulusMpa : 0
    return E * strain <= yieldMpa ? E * strain : yieldMpa + slope * (strain - yieldMpa / E)
  }
  let [low, high] = [0, E * strain]
  for (let i = 0; i < 200; i++) {
    const s = (low + high) / 2
    if (s / E + 0.002 * (s / yieldMpa) ** hardening.n < strain) low = s
    else high = s
  }
  return low
}

/** Σ 2h ∫₀ᵇ s(κy)·y dy by Simpson's rule in slices that end where the metal starts to yield. */
function momentByQuadrature(section: SectionProperties, metal: Metal, k: number): number {
  const core = metal.yieldMpa / (metal.youngsModulusMpa * k)
  let moment = 0
  for (const { widthMm, heightMm } of section.rectangles) {
    const b = widthMm / 2
    const edges = [0, ...[0.5 * core, core, 1.5 * core, 3 * core].filter((y) => y < b), b]
    for (const [index, to] of edges.slice(1).entries()) {
      const from = edges[index]!
      const slices = 400
      const step = (to - from) / slices
      for (let i = 0; i <= slices; i++) {
        const y = from + i * step
        const weight = i === 0 || i === slices ? 1 : i % 2 === 1 ? 4 : 2
        moment += (2 * heightMm * weight * step * stressByBisection(metal, k * y) * y) / 3
      }
    }
  }
  return moment
}

const timesYield = fc.double({ min: Math.log(0.05), max: Math.log(200), noNaN: true }).map(Math.exp)

describe('moment and curvature', () => {
  it('agree with an independent quadrature for all three laws', () => {
    for (const metal of THREE_LAWS)
      for (const times of [0.3, 0.9, 1.1, 2, 7, 60]) {
        const k = times * yieldCurvature(RAIL, metal)
        expect(momentNmm(RAIL, metal, k) / momentByQuadrature(RAIL, metal, k)).toBeCloseTo(1, 9)
      }
  })

  it('agree with it for any section and metal', () => {
    fc.assert(
      fc.property(anySection, anyMetal, timesYield, (section, metal, times) => {
        const k = times * yieldCurvature(section, metal)
        expect(momentNmm(section, metal, k) / momentByQuadrature(section, metal, k)).toBeCloseTo(1, 6)
      }),
      { numRuns: 40 },
    )
  })

  it('of a Ramberg–Osgood rectangle are those of the closed form in its edge stress (derived)', () => {
    const bar = sectionProperties([{ widthMm: 10, heightMm: 3 }])
    const metal: Metal = {
      youngsModulusMpa: 1e5,
      yieldMpa: 300,
      hardening: { model: 'ramberg-osgood', n: 7 },
      elongationPct: null,
    }
    const atYield = (2 * 300) / (1e5 * 10)
    const derived = [
      [0.5, 7475.0201, 5e-5],
      [1, 13723.788, 5e-4],
      [3, 22705.608, 5e-4],
      [10, 29706.098, 5e-4],
    ] as const
    for (const [times, printed, within] of derived)
      expect(Math.abs(momentNmm(bar, metal, times * atYield) - printed)).toBeLessThanOrEqual(within)
  })

  it('leave what the moment does not spring back: κset = κ − M/(E·I)', () => {
    fc.assert(
      fc.property(anySection, anyMetal, timesYield, (section, metal, times) => {
        const k = times * yieldCurvature(section, metal)
        const back = momentNmm(section, metal, k) / (metal.youngsModulusMpa * section.lateralSecondMomentMm4)
        expect(Math.abs(setCurvature(section, metal, k) + back - k)).toBeLessThan(1e-13 * k)
      }),
      { numRuns: 500 },
    )
  })

  it('are odd, start at nothing and rise', () => {
    fc.assert(
      fc.property(anySection, anyMetal, timesYield, (section, metal, times) => {
        const k = times * yieldCurvature(section, metal)
        expect(momentNmm(section, metal, -k)).toBe(-momentNmm(section, metal, k))
        expect(setCurvature(section, metal, -k)).toBe(-setCurvature(section, metal, k))
        expect(momentNmm(section, metal, 1.01 * k)).toBeGreaterThan(momentNmm(section, metal, k) * (1 - 1e-13))
        expect(setCurvature(section, metal, 1.01 * k)).toBeGreaterThanOrEqual(setCurvature(section, metal, k))
      }),
    )
    expect(momentNmm(RAIL, THREE_LAWS[0]!, 0)).toBe(0)
    expect(setCurvature(RAIL, THREE_LAWS[0]!, 0)).toBe(0)
  })

  it('tell by what power the set grows: its difference in logarithms, from n down to 1', () => {
    fc.assert(
      fc.property(anySection, anyMetal, timesYield, (section, metal, times) => {
        const k = times * yieldCurvature(section, metal)
        const set = (at: number) => Math.log(setCurvature(section, metal, at))
        fc.pre(Number.isFinite(set(k * 0.99)))
        const step = 1e-5
        const { setPower } = loadedTo(section, metal, k)
        expect((set(k * (1 + step)) - set(k * (1 - step))) / (2 * step) / setPower).toBeCloseTo(1, 3)
        if (metal.hardening.model === 'ramberg-osgood') {
          expect(setPower).toBeGreaterThan(1 - 1e-9)
          expect(setPower).toBeLessThan(metal.hardening.n * (1 + 1e-9))
        }
      }),
      { numRuns: 500 },
    )
    expect(loadedTo(RAIL, THREE_LAWS[2]!, 0.9 * yieldCurvature(RAIL, THREE_LAWS[2]!)).setPower).toBeNaN()
  })

  it('end at the plastic moment for a perfectly plastic metal (closed form)', () => {
    const ideal = THREE_LAWS[2]!
    const far = momentNmm(RAIL, ideal, 1e6 * yieldCurvature(RAIL, ideal))
    expect(far / (ideal.yieldMpa * RAIL.plasticModulusMm3)).toBeCloseTo(1, 9)
  })
})
