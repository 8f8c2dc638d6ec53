import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leftToTies } from '../../src/bending/even-bending.ts'
import { momentNmm } from '../../src/bending/moment-curvature.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { forming } from '../../src/bending/springback.ts'
import { anyMetal, anySection, HARD_BRASS, IDEAL, RAIL, SOFT_STAINLESS, THREE_LAWS } from './rails.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const anyRadius = between(Math.log(100), Math.log(60_000)).map(Math.exp)

describe('what hands leave to the ties', () => {
  it('is all of springing in where nothing sets at the ratio they manage (closed form)', () => {
    // The elastic limit of this rail is at 895 mm; bent twice as tight as 3000 mm it stays elastic.
    expect(leftToTies(RAIL, IDEAL, 2)(3000)).toBeCloseTo((110_300 * RAIL.lateralSecondMomentMm4) / 3000, 8)
    for (const ratio of [1, 0.5, 1e-9])
      expect(leftToTies(RAIL, HARD_BRASS, ratio)(1500)).toBeCloseTo(momentNmm(RAIL, HARD_BRASS, 1 / 1500), 8)
  })

  it('is what is missing of the moment when bent q times as tight: M(qk) − (q − 1)·E·I·k (closed form)', () => {
    const stiffness = SOFT_STAINLESS.youngsModulusMpa * RAIL.lateralSecondMomentMm4
    for (const [ratio, radiusMm] of [
      [1.5, 6000],
      [2, 4000],
    ] as const) {
      const missing = momentNmm(RAIL, SOFT_STAINLESS, ratio / radiusMm) - ((ratio - 1) * stiffness) / radiusMm
      expect(leftToTies(RAIL, SOFT_STAINLESS, ratio)(radiusMm)).toBeCloseTo(missing, 8)
    }
  })

  it('does not fall again where a tighter curve is bent within the ratio', () => {
    const left = leftToTies(RAIL, SOFT_STAINLESS, 2)
    expect(forming(RAIL, SOFT_STAINLESS, 300).overbendRatio).toBeLessThan(2)
    const radii = Array.from({ length: 400 }, (_, index) => 300 * 1.01 ** index)
    const greatest = Math.max(...radii.map((mm) => leftToTies(RAIL, SOFT_STAINLESS, 2)(mm)))
    expect(left(300) / greatest).toBeCloseTo(1, 9)
  })

  it('peaks, in a rectangle of perfectly plastic metal, where that can be said by hand', () => {
    // M(k) = 1.5·My·(1 − (ky/k)²/3) beyond ky. With q = 2, m(k) = M(2k) − E·I·k falls from M′(2k) = E·I/2 on:
    // (ky/2k)³ = 1/2, 2k = 2^(1/3)·ky; there m = My·(1.5 − 0.5·2^(−2/3) − 0.5·2^(1/3)) = 0.5551·My.
    const section = sectionProperties([{ widthMm: 6, heightMm: 10 }])
    const yieldMoment = (345 * 10 * 36) / 6
    const expected = (1.5 - 0.5 * 2 ** (-2 / 3) - 0.5 * 2 ** (1 / 3)) * yieldMoment
    expect(leftToTies(section, IDEAL, 2)(200) / expected).toBeCloseTo(1, 12)
  })

  it('never rises with the radius, whatever was asked for before', () => {
    fc.assert(
      fc.property(
        anySection,
        anyMetal,
        between(0.5, 6),
        fc.array(anyRadius, { minLength: 2, maxLength: 6 }),
        (section, metal, ratio, radii) => {
          const left = leftToTies(section, metal, ratio)
          const values = radii.map((radiusMm) => ({ radiusMm, value: left(radiusMm) }))
          values.sort((a, b) => a.radiusMm - b.radiusMm)
          for (const [index, { radiusMm, value }] of values.entries()) {
            expect(value).toBeGreaterThanOrEqual(0)
            if (index > 0) expect(value).toBeLessThanOrEqual(values[index - 1]!.value * (1 + 1e-8))
            expect(leftToTies(section, metal, ratio)(radiusMm)).toBeCloseTo(value, 6 - Math.ceil(Math.log10(value + 1)))
          }
        },
      ),
    )
  })

  it('is less, the tighter hands can bend evenly', () => {
    for (const metal of THREE_LAWS)
      for (const radiusMm of [500, 1000, 2000]) {
        const values = [1, 1.5, 2, 3, 5].map((ratio) => leftToTies(RAIL, metal, ratio)(radiusMm))
        expect(values).toEqual([...values].sort((a, b) => b - a))
      }
  })
})
