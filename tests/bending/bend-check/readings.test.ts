import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  bestFitRadiusMm,
  longestBody,
  radiusBandMm,
  radiusOfMm,
  turnedDeg,
  verdictOn,
} from '../../../src/bending/bend-check/readings.ts'
import { midOrdinateMm } from '../../../src/bending/ordinates.ts'
import { checked } from './curves.ts'

const CHORD = 500

describe('the radius of a reading', () => {
  it('is exact, signed, and null on straight track (by hand: 3-4-5 triangle, chord 800, ordinate 200)', () => {
    expect(radiusOfMm(800, 200)).toBe(500)
    expect(radiusOfMm(800, -200)).toBe(-500)
    expect(radiusOfMm(800, 0)).toBeNull()
    expect(radiusOfMm(800, -0)).toBeNull()
    expect(radiusOfMm(800, 1e-320)).toBeNull()
  })

  it('a half circle is the last that a straight chord can show', () => {
    expect(radiusOfMm(CHORD, 250)).toBe(250)
    expect(radiusBandMm(CHORD, 250, 0.5).radiusLowMm).toBe(250)
  })
})

describe('the band of a reading', () => {
  it('holds a radius exactly when its ordinate is within the resolution of the reading', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 260, max: 50_000, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (radiusMm, off) => {
          const reading = midOrdinateMm(radiusMm, CHORD)! + off
          fc.pre(reading > 0 && reading < 250 && Math.abs(Math.abs(off) - 0.5) > 1e-6)
          const { radiusLowMm, radiusHighMm } = radiusBandMm(CHORD, reading, 0.5)
          const isInside = radiusLowMm! <= radiusMm && radiusMm <= (radiusHighMm ?? Number.POSITIVE_INFINITY)
          expect(isInside).toBe(Math.abs(off) < 0.5)
        },
      ),
    )
  })

  it('has no flat end where the rail may be straight, and mirrors', () => {
    expect(radiusBandMm(CHORD, 0.3, 0.5).radiusHighMm).toBeNull()
    expect(radiusBandMm(CHORD, 0.5, 0.5).radiusHighMm).toBeNull()
    expect(radiusBandMm(CHORD, 0, 0.5)).toEqual({ radiusLowMm: 62_500.25, radiusHighMm: null })
    const { radiusLowMm, radiusHighMm } = radiusBandMm(CHORD, 20, 0.5)
    expect(radiusBandMm(CHORD, -20, 0.5)).toEqual({ radiusLowMm: -radiusLowMm!, radiusHighMm: -radiusHighMm! })
  })

  it('is a point when readings are exact', () => {
    expect(radiusBandMm(CHORD, 20, 0)).toEqual({ radiusLowMm: 1572.5, radiusHighMm: 1572.5 })
  })
})

describe('the best-fit radius', () => {
  it('leaves a smaller sum of squares than any radius about it, tried over the exact ordinate', () => {
    const readings = fc.array(fc.double({ min: 4, max: 60, noNaN: true }), { minLength: 1, maxLength: 12 })
    fc.assert(
      fc.property(readings, (readingsMm) => {
        const best = bestFitRadiusMm(CHORD, readingsMm)!
        const misfit = (radiusMm: number) =>
          readingsMm.reduce((sum, reading) => sum + (reading - midOrdinateMm(radiusMm, CHORD)!) ** 2, 0)
        for (const factor of [0.9, 0.99, 0.999, 1.001, 1.01, 1.1])
          expect(misfit(best * factor)).toBeGreaterThan(misfit(best))
      }),
    )
  })

  it('gives a radius back from its own ordinates, leaves gaps out, and is null on the straight', () => {
    const v = midOrdinateMm(2400, CHORD)!
    expect(bestFitRadiusMm(CHORD, [v, null, v])).toBeCloseTo(2400, 8)
    expect(bestFitRadiusMm(CHORD, [0, 0])).toBeNull()
    expect(bestFitRadiusMm(CHORD, [null])).toBeNull()
  })

  it('is that of the longest body in a lined curve', () => {
    const proposedMm = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]
    const { bestFitRadiusMm: radius } = checked({ chordMm: CHORD, readingsMm: proposedMm, proposedMm })
    expect(radius).toBe(1572.5)
  })
})

describe('the longest body', () => {
  it('is the longest stretch of equal targets, the sharper of two, and never the straight', () => {
    expect(longestBody([0, 0, 0, 5, 9, 9, 5, 0])).toEqual([4, 5])
    expect(longestBody([0, 5, 5, 8, 8, 0])).toEqual([3, 4])
    expect(longestBody([0, -8, -8, 5, 5, 0])).toEqual([1, 2])
    expect(longestBody([3])).toEqual([0])
    expect(longestBody([0, 0])).toEqual([])
    expect(longestBody([])).toEqual([])
  })
})

describe('the verdict', () => {
  it.each([
    [10, 10.5, 'good'],
    [10, 10.51, 'ease'],
    [10, 9.5, 'good'],
    [10, 9.49, 'bend-more'],
    [10, -10, 'bend-more'],
    [20, 21, 'good'],
    [20, 21.1, 'ease'],
    [0, 0.5, 'good'],
    [0, 0.6, 'ease'],
    [0, -0.6, 'ease'],
  ] as const)('target %d, reading %d: %s; and the mirrored one the same', (target, reading, verdict) => {
    expect(verdictOn(reading, target, 0.5, 5)).toBe(verdict)
    expect(verdictOn(-reading, -target, 0.5, 5)).toBe(verdict)
  })
})

describe('the turn of the whole curve', () => {
  it('is that of a circle (closed form: a chord of 2s spans 4·asin(s/2R), and M = s·sin of a quarter of it)', () => {
    const radius = 1200
    const spacing = 250
    const perStation = 2 * Math.asin(spacing / (2 * radius))
    const ordinate = spacing * Math.sin(perStation / 2)
    expect(turnedDeg([ordinate, ordinate, ordinate], spacing)).toBeCloseTo((3 * perStation * 180) / Math.PI, 9)
    expect(turnedDeg([ordinate, -ordinate], spacing)).toBeCloseTo(0, 12)
  })
})
