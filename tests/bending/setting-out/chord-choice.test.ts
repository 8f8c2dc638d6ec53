import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { midOrdinateMm, radiusFromMidOrdinateMm } from '../../../src/bending/ordinates.ts'
import { type Measuring, measuringSheet, smallestChordMm } from '../../../src/bending/setting-out/chord-choice.ts'

const MEASURING: Measuring = { radiusMm: 1200, lengthMm: 800, resolutionMm: 0.5, tolerancePct: 5 }

describe('the measuring sheet', () => {
  it('has ordinates at middle, quarters and eighths (by hand: y = √(r² − x²) − √(r² − C²/4))', () => {
    const [row] = measuringSheet(MEASURING, [500]).chords
    const y = (x: number) => Math.sqrt(1200 ** 2 - x ** 2) - Math.sqrt(1200 ** 2 - 250 ** 2)
    expect(row!.midMm).toBeCloseTo(26.331, 3)
    expect(row!.quarterMm).toBeCloseTo(y(125), 9)
    expect(row!.eighthMm).toBeCloseTo(y(187.5), 9)
    expect(row!.threeEighthsMm).toBeCloseTo(y(62.5), 9)
  })

  it('tells what radius a reading may mean either way (by hand)', () => {
    const [row] = measuringSheet(MEASURING, [300]).chords
    const mid = midOrdinateMm(1200, 300)!
    expect(row!.lowRadiusMm).toBeCloseTo(300 ** 2 / (8 * (mid + 0.5)) + (mid + 0.5) / 2, 9)
    expect(row!.highRadiusMm).toBeCloseTo(300 ** 2 / (8 * (mid - 0.5)) + (mid - 0.5) / 2, 9)
    expect(row!.errorPct).toBeCloseTo((100 * (row!.highRadiusMm! - 1200)) / 1200, 9)
    expect(row!.withinTolerance).toBe(false)
  })

  it('recommends the shortest chord that fits and is good enough', () => {
    const sheet = measuringSheet(MEASURING, [600, 200, 400, 900])
    expect(sheet.chords.map(({ fits }) => fits)).toEqual([true, true, true, false])
    expect(sheet.chords.map(({ withinTolerance }) => withinTolerance)).toEqual([true, false, true, true])
    expect(sheet.recommendedChordMm).toBe(400)
  })

  it('makes one up in whole centimetres where none of the given is long enough', () => {
    const sheet = measuringSheet(MEASURING, [200, 250])
    expect(sheet.smallestChordMm).toBeGreaterThan(310)
    expect(sheet.smallestChordMm).toBeLessThan(320)
    expect(sheet.recommendedChordMm).toBe(320)
    expect(measuringSheet(MEASURING, []).recommendedChordMm).toBe(320)
  })

  it('recommends none where the bend is too short for a good one', () => {
    const sheet = measuringSheet({ ...MEASURING, lengthMm: 300 }, [200, 250, 500])
    expect(sheet.recommendedChordMm).toBeNull()
    expect(sheet.chords.map(({ fits }) => fits)).toEqual([true, true, false])
  })

  it('does not bound a radius whose ordinate is no more than the reading’s error', () => {
    const [row] = measuringSheet({ ...MEASURING, resolutionMm: 3 }, [150]).chords
    expect(row).toMatchObject({ highRadiusMm: null, errorPct: null, withinTolerance: false })
    expect(row!.lowRadiusMm).toBeGreaterThan(0)
  })

  it('leaves a chord longer than the diameter empty', () => {
    const [row] = measuringSheet({ ...MEASURING, radiusMm: 200, lengthMm: null }, [401]).chords
    expect(row).toEqual({
      chordMm: 401,
      midMm: null,
      quarterMm: null,
      eighthMm: null,
      threeEighthsMm: null,
      lowRadiusMm: null,
      highRadiusMm: null,
      errorPct: null,
      fits: false,
      withinTolerance: false,
    })
  })

  it('takes any bend without a length for long enough, up to the diameter', () => {
    expect(measuringSheet({ ...MEASURING, lengthMm: null }, [2400]).recommendedChordMm).toBe(2400)
  })
})

describe('the smallest good chord', () => {
  it('reads the radius to just the tolerance, the reading being too small by its resolution', () => {
    const anyRadius = fc.double({ min: 300, max: 20_000, noNaN: true })
    const anyError = fc.double({ min: 0.01, max: 1, noNaN: true })
    const anyTolerance = fc.double({ min: 0.5, max: 20, noNaN: true })
    fc.assert(
      fc.property(anyRadius, anyError, anyTolerance, (radiusMm, resolutionMm, tolerancePct) => {
        const chord = smallestChordMm({ radiusMm, lengthMm: null, resolutionMm, tolerancePct })
        fc.pre(chord !== null)
        const read = radiusFromMidOrdinateMm(chord!, midOrdinateMm(radiusMm, chord!)! - resolutionMm)!
        expect(read / radiusMm).toBeCloseTo(1 + tolerancePct / 100, 6)
        const sheet = measuringSheet({ radiusMm, lengthMm: null, resolutionMm, tolerancePct }, [
          chord! * 0.99,
          Math.min(chord! * 1.01, 2 * radiusMm),
        ])
        expect(sheet.chords.map(({ withinTolerance }) => withinTolerance)).toEqual([false, true])
      }),
    )
  })

  it('is nothing for exact readings, and none where no chord is long enough', () => {
    expect(smallestChordMm({ ...MEASURING, resolutionMm: 0 })).toBe(0)
    expect(smallestChordMm({ ...MEASURING, radiusMm: 5, resolutionMm: 4, tolerancePct: 1 })).toBeNull()
  })
})
