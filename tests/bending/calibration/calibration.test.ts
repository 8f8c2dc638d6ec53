import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { depthOnLineMm } from '../../../src/bending/calibration/bender-line.ts'
import { type Calibration, calibrate } from '../../../src/bending/calibration/calibration.ts'
import { DEFAULT_RESOLUTION } from '../../../src/bending/calibration/effective-yield.ts'
import { withYield } from '../../../src/bending/metal.ts'
import { midOrdinateMm } from '../../../src/bending/ordinates.ts'
import { rollerSetting } from '../../../src/bending/roller/roller-setting.ts'
import { restingRadiusMm } from '../../../src/bending/springback.ts'
import type { TestBend } from '../../../src/plan/rows/rail.ts'
import { HARD_BRASS, RAIL, ROLLS, SOFT_STAINLESS } from '../rails.ts'

/** A stick that is softer than its label says. */
const TRUE_YIELD = 290
const stick = withYield(HARD_BRASS, TRUE_YIELD)
const rail = { section: RAIL, metal: HARD_BRASS, bender: ROLLS }
const RESOLUTION = { radiusMm: 2.5, readingMm: 0.05, chordMm: 500, depthMm: 0.01 }

const rounded = (value: number, step: number) => Math.round(value / step) * step

function radii(formed: number, metal = stick): TestBend {
  return {
    formedRadius: rounded(formed, 5),
    restingRadius: rounded(restingRadiusMm(RAIL, metal, formed)!, 5),
  }
}

function pass(wanted: number, metal = stick, scale = 1): TestBend {
  const depth = scale * rollerSetting(RAIL, metal, ROLLS, wanted).depthMm
  return { depth: rounded(depth, 0.02), chord: 500, ordinate: rounded(midOrdinateMm(wanted - 1.45, 500)!, 0.1) }
}

function calibrated(tests: TestBend[], yieldKnown = true): Calibration {
  const result = calibrate(rail, tests, RESOLUTION, yieldKnown)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.calibration
}

describe('calibration', () => {
  it('by one rounded bend holds the stick’s yield in its band', () => {
    const found = calibrated([radii(300)])
    expect(found).toMatchObject({ from: 'radii', determined: 'well', consistent: true, line: null })
    expect(found.lowMpa).toBeLessThanOrEqual(TRUE_YIELD)
    expect(found.highMpa).toBeGreaterThanOrEqual(TRUE_YIELD)
    expect(found.effectiveYieldMpa! / TRUE_YIELD).toBeCloseTo(1, 1)
    expect(found.readings).toHaveLength(1)
    expect(found.readings[0]).toMatchObject({ used: true, yieldMpa: expect.closeTo(found.effectiveYieldMpa!, 9) })
  })

  it('by any few rounded bends holds it too', () => {
    const anyForming = fc.array(fc.double({ min: 200, max: 600, noNaN: true }), { minLength: 1, maxLength: 5 })
    fc.assert(
      fc.property(anyForming, fc.double({ min: 150, max: 600, noNaN: true }), (formings, truth) => {
        const bends = formings.map((formed) => radii(formed, withYield(HARD_BRASS, truth)))
        const found = calibrated(bends)
        expect(found.consistent).toBe(true)
        expect(found.lowMpa ?? 0).toBeLessThanOrEqual(truth * (1 + 1e-9))
        expect(found.highMpa ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(truth * (1 - 1e-9))
      }),
      { numRuns: 60 },
    )
  })

  it('leans on the bends that tell most, and shows each', () => {
    // At 150 mm so little springs back that the rounding to 5 mm weighs most.
    const [good, poor] = [radii(400), radii(150)]
    const [alone, both] = [calibrated([good]), calibrated([poor, good])]
    const distance = Math.abs(both.effectiveYieldMpa! - alone.effectiveYieldMpa!)
    const apart = Math.abs(both.readings[0]!.yieldMpa! - both.readings[1]!.yieldMpa!)
    expect(distance).toBeLessThanOrEqual(apart / 2)
    expect(both.spread).toEqual({
      leastMpa: Math.min(...both.readings.map(({ yieldMpa }) => yieldMpa!)),
      greatestMpa: Math.max(...both.readings.map(({ yieldMpa }) => yieldMpa!)),
    })
  })

  it('says when the bends do not agree: a stick of two hardnesses', () => {
    const found = calibrated([radii(250), radii(260, withYield(HARD_BRASS, 380))])
    expect(found.consistent).toBe(false)
    expect(found.effectiveYieldMpa).toBeGreaterThan(290)
    expect(found.effectiveYieldMpa).toBeLessThan(380)
  })

  it('grades a coarse measurement as such', () => {
    const coarse = calibrate(rail, [radii(300)], { ...RESOLUTION, radiusMm: 60 }, true)
    expect(coarse).toMatchObject({ ok: true, calibration: { determined: 'poorly' } })
    const usual = calibrate(rail, [radii(300)], DEFAULT_RESOLUTION, true)
    expect(usual).toMatchObject({ ok: true, calibration: { effectiveYieldMpa: expect.closeTo(TRUE_YIELD, -1) } })
  })

  it('grades by half the band over the yield: up to 5 % well, up to 15 % fairly', () => {
    // Steps of 0.1 mm make the band a thousandth of the yield wider.
    const coarser = Array.from({ length: 150 }, (_, n) => 3 + n / 10).map((radiusMm) => {
      const result = calibrate(rail, [radii(300)], { ...RESOLUTION, radiusMm }, true)
      if (!result.ok) throw new Error(JSON.stringify(result.faults))
      const { lowMpa, highMpa, effectiveYieldMpa, determined } = result.calibration
      return { half: (highMpa! - lowMpa!) / 2 / effectiveYieldMpa!, determined }
    })
    for (const { half, determined } of coarser)
      expect([half, determined]).toEqual([half, half <= 0.05 ? 'well' : half <= 0.15 ? 'fairly' : 'poorly'])
    for (const limit of [0.05, 0.15]) {
      const beside = coarser.filter(({ half }) => Math.abs(half - limit) < 0.0015).map(({ determined }) => determined)
      expect(new Set(beside).size).toBe(2)
    }
  })

  it('by passes finds the yield and the bender’s line', () => {
    const found = calibrated([pass(500), pass(1200)], false)
    expect(found.from).toBe('passes')
    expect(found.lowMpa).toBeLessThan(TRUE_YIELD)
    expect(found.highMpa).toBeGreaterThan(TRUE_YIELD)
    expect(found.line!.rail.metal.yieldMpa).toBe(found.effectiveYieldMpa)
    const wanted = rollerSetting(RAIL, stick, ROLLS, 800).depthMm
    expect(depthOnLineMm(found.line!.line, found.line!.rail, 800) / wanted).toBeCloseTo(1, 1)
  })

  it('by radii and passes takes the yield from the radii and the line from the passes', () => {
    const found = calibrated([pass(500, stick, 1.2), radii(250), pass(1200, stick, 1.2)])
    expect(found.from).toBe('radii')
    expect(found.readings.map(({ used }) => used)).toEqual([false, true, false])
    expect(found.line!.rail.metal.yieldMpa).toBe(found.effectiveYieldMpa)
    expect(found.line!.line.scale).toBeCloseTo(1.2, 1)
  })

  it('by a pass through a bender unlike the estimate has no yield, but a line', () => {
    const found = calibrated([pass(400, SOFT_STAINLESS, 0.5)])
    expect(found.effectiveYieldMpa).toBeNull()
    expect(found.determined).toBe('poorly')
    expect(found.readings).toEqual([{ yieldMpa: null, lowMpa: null, highMpa: null, sensitivity: null, used: false }])
    expect(found.line!.rail.metal.yieldMpa).toBe(HARD_BRASS.yieldMpa)
    expect(depthOnLineMm(found.line!.line, found.line!.rail, 400)).toBeCloseTo(
      (pass(400, SOFT_STAINLESS, 0.5) as { depth: number }).depth,
      1,
    )
  })

  it('refuses every impossible bend at its place', () => {
    const result = calibrate(
      rail,
      [radii(300), { formedRadius: 900, restingRadius: 700 }, { depth: 1, chord: 300, ordinate: 0 }],
      RESOLUTION,
      true,
    )
    expect(result).toMatchObject({
      ok: false,
      faults: [
        { path: [1, 'restingRadius'], code: 'impossible-test-bend' },
        { path: [2, 'ordinate'], code: 'impossible-test-bend' },
      ],
    })
  })

  it('refuses a spring-back no metal has, and passes that contradict one another', () => {
    expect(calibrate(rail, [{ formedRadius: 300, restingRadius: 300.001 }], RESOLUTION, true)).toMatchObject({
      ok: false,
      faults: [{ path: [0, 'restingRadius'], code: 'impossible-test-bend' }],
    })
    const swapped: TestBend[] = [
      { depth: 0.6, chord: 300, ordinate: 20 },
      { depth: 1.6, chord: 300, ordinate: 6 },
    ]
    expect(calibrate(rail, swapped, RESOLUTION, true)).toMatchObject({
      ok: false,
      faults: [{ path: [1], code: 'impossible-test-bend' }],
    })
  })
})
