import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readYield } from '../../../src/bending/calibration/effective-yield.ts'
import { type ReadBend, readTestBend, restingRadiusOfReading } from '../../../src/bending/calibration/test-bend.ts'
import { withYield } from '../../../src/bending/metal.ts'
import { midOrdinateMm } from '../../../src/bending/ordinates.ts'
import { threePointDepthMm } from '../../../src/bending/roller/three-point-depth.ts'
import { formingCurvature, restingRadiusMm } from '../../../src/bending/springback.ts'
import { anyMetal, anySection, HARD_BRASS, IDEAL, RAIL, ROLLS, THREE_LAWS } from '../rails.ts'

const FINE = { radiusMm: 1e-6, readingMm: 1e-9, chordMm: 500, depthMm: 1e-6 }

/** The metal as its user names it: the wrong yield by up to three times. */
const share = fc.double({ min: 1 / 3, max: 3, noNaN: true })

function radiiOf(formedRadiusMm: number, restingRadius: number): ReadBend {
  return { kind: 'radii', formedRadiusMm, restingRadiusMm: restingRadius }
}

describe('the yield of a test bend', () => {
  it('is the one it was simulated with', () => {
    fc.assert(
      fc.property(
        anySection,
        anyMetal,
        share,
        fc.double({ min: 1.2, max: 8, noNaN: true }),
        (section, metal, named, x) => {
          const formed = (section.extremeFibreMm * metal.youngsModulusMpa) / metal.yieldMpa / x
          fc.pre(formed > 11 * section.extremeFibreMm)
          const resting = restingRadiusMm(section, metal, formed)!
          const rail = { section, metal: withYield(metal, named * metal.yieldMpa), bender: null }
          const reading = readYield(radiiOf(formed, resting), rail, FINE)
          expect(reading.yieldMpa! / metal.yieldMpa).toBeCloseTo(1, 8)
        },
      ),
      { numRuns: 300 },
    )
  })

  it('lies within its band when the readings were rounded', () => {
    const anyFormed = fc.double({ min: 150, max: 900, noNaN: true })
    fc.assert(
      fc.property(
        fc.constantFrom(...THREE_LAWS),
        anyFormed,
        share,
        fc.constantFrom(1, 5, 20),
        (metal, formed, named, step) => {
          const resting = restingRadiusMm(RAIL, metal, formed)
          fc.pre(resting !== null && resting < 20_000)
          const round = (mm: number) => Math.round(mm / step) * step
          const read = readTestBend(
            { formedRadius: round(formed), restingRadius: round(resting!) },
            { section: RAIL, metal, bender: null },
          )
          fc.pre('bend' in read)
          const rail = { section: RAIL, metal: withYield(metal, named * metal.yieldMpa), bender: null }
          const reading = readYield(('bend' in read && read.bend) as ReadBend, rail, { ...FINE, radiusMm: step / 2 })
          expect(reading.lowMpa ?? 0).toBeLessThanOrEqual(metal.yieldMpa * (1 + 1e-9))
          expect(reading.highMpa ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(metal.yieldMpa * (1 - 1e-9))
        },
      ),
      { numRuns: 300 },
    )
  })

  it('lies within its band when a roller’s depth and the ordinate were rounded', () => {
    for (const metal of THREE_LAWS)
      for (const wanted of [600, 1000, 1700]) {
        const depth = threePointDepthMm(RAIL, metal, ROLLS, formingCurvature(RAIL, metal, 1 / wanted))
        const ordinate = midOrdinateMm(wanted - 1.45, 300)!
        const ordinateMm = Math.round(ordinate / 0.2) * 0.2
        const bend: ReadBend = {
          kind: 'pass',
          depthMm: Math.round(depth / 0.05) * 0.05,
          chordMm: 300,
          ordinateMm,
          restingRadiusMm: restingRadiusOfReading(RAIL, 300, ordinateMm),
        }
        const rail = { section: RAIL, metal: withYield(metal, 200), bender: ROLLS }
        const reading = readYield(bend, rail, { ...FINE, readingMm: 0.1, depthMm: 0.025 })
        expect(reading.lowMpa ?? 0).toBeLessThan(metal.yieldMpa)
        expect(reading.highMpa!).toBeGreaterThan(metal.yieldMpa)
        expect(reading.yieldMpa! / metal.yieldMpa).toBeCloseTo(1, 0)
      }
  })

  it('has the wider a band the coarser the reading', () => {
    const bend = radiiOf(450, restingRadiusMm(RAIL, HARD_BRASS, 450)!)
    const bands = [1, 5, 25].map((radiusMm) =>
      readYield(bend, { section: RAIL, metal: HARD_BRASS, bender: null }, { ...FINE, radiusMm }),
    )
    const widths = bands.map(({ lowMpa, highMpa }) => highMpa! - lowMpa!)
    expect(widths[1]! / widths[0]!).toBeCloseTo(5, 1)
    expect(widths[2]!).toBeGreaterThan(4.5 * widths[1]!)
  })

  it('is not bounded above where the ordinate at rest is no more than its resolution', () => {
    // 28 m over 500 mm is an ordinate of 1.1 mm.
    const bend = radiiOf(850, 28_282)
    const rail = { section: RAIL, metal: HARD_BRASS, bender: null }
    const over = (readingMm: number) => readYield(bend, rail, { ...FINE, readingMm })
    expect(over(2).highMpa).toBeNull()
    expect(over(2).lowMpa).toBeLessThan(over(2).yieldMpa!)
    expect(over(0.5).highMpa).toBeGreaterThan(over(0.5).yieldMpa! * 1.05)
  })

  it('has a sensitivity: a percent of resting radius is worth so many percent of yield', () => {
    const formed = 300
    const resting = restingRadiusMm(RAIL, IDEAL, formed)!
    const rail = { section: RAIL, metal: IDEAL, bender: null }
    const at = (radius: number) => readYield(radiiOf(formed, radius), rail, FINE)
    const slope =
      (Math.log(at(resting * 1.01).yieldMpa!) - Math.log(at(resting / 1.01).yieldMpa!)) / (2 * Math.log(1.01))
    expect(at(resting).sensitivity! / slope).toBeCloseTo(1, 2)
  })

  it('is none where no metal does that, and not bounded below where the readings all but touch', () => {
    const rail = { section: RAIL, metal: HARD_BRASS, bender: ROLLS }
    expect(readYield(radiiOf(300, 300.0001), rail, FINE)).toEqual({
      yieldMpa: null,
      lowMpa: null,
      highMpa: null,
      sensitivity: null,
    })
    const close = readYield(radiiOf(300, 330), rail, { ...FINE, radiusMm: 20 })
    expect(close.lowMpa).toBeNull()
    expect(close.highMpa).toBeGreaterThan(close.yieldMpa!)
  })
})
