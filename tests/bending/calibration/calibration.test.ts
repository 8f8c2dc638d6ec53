import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { depthOnLineMm } from '../../../src/bending/calibration/bender-line.ts'
import { type Calibration, calibrate, testBendFaults } from '../../../src/bending/calibration/calibration.ts'
import { DEFAULT_RESOLUTION } from '../../../src/bending/calibration/effective-yield.ts'
import { withYield } from '../../../src/bending/metal.ts'
import { midOrdinateMm } from '../../../src/bending/ordinates.ts'
import { onePassDepthMm } from '../../../src/bending/roller/model-for.ts'
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
  const depth = scale * onePassDepthMm(RAIL, metal, ROLLS, 1 / wanted)
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

  it('weighs each bend by one over the square of its band’s width in ln(yield) (closed form)', () => {
    const found = calibrated([radii(150), radii(260, withYield(HARD_BRASS, 330)), radii(400)])
    const weights = found.readings.map(({ lowMpa, highMpa }) => 1 / Math.log(highMpa! / lowMpa!) ** 2)
    const averaged = (of: (reading: Calibration['readings'][number]) => number) =>
      Math.exp(
        found.readings.reduce((sum, reading, n) => sum + weights[n]! * Math.log(of(reading)), 0) /
          weights.reduce((sum, weight) => sum + weight, 0),
      )
    expect(found.effectiveYieldMpa).toBeCloseTo(
      averaged(({ yieldMpa }) => yieldMpa!),
      9,
    )
    expect(found.lowMpa).toBeCloseTo(
      averaged(({ lowMpa }) => lowMpa!),
      9,
    )
    expect(found.highMpa).toBeCloseTo(
      averaged(({ highMpa }) => highMpa!),
      9,
    )
  })

  describe('measured so coarsely that a bend bounds its yield on one side only', () => {
    const coarse = (tests: TestBend[]) => {
      const result = calibrate(rail, tests, { ...RESOLUTION, radiusMm: 60 }, true)
      if (!result.ok) throw new Error(JSON.stringify(result.faults))
      return result.calibration
    }

    it('passes that one over where another is bounded', () => {
      const found = coarse([radii(150), radii(500)])
      expect(found.readings.map(({ lowMpa, used }) => [lowMpa !== null, used])).toEqual([
        [false, false],
        [true, true],
      ])
      expect(found.effectiveYieldMpa).toBeCloseTo(found.readings[1]!.yieldMpa!, 9)
    })

    it('averages evenly where none is, and knows it poorly', () => {
      const found = coarse([radii(150), radii(150, withYield(HARD_BRASS, 350))])
      const [a, b] = found.readings.map(({ yieldMpa }) => yieldMpa!)
      expect(found.readings.map(({ used }) => used)).toEqual([true, true])
      expect(found.effectiveYieldMpa).toBeCloseTo(Math.sqrt(a! * b!), 9)
      expect(found).toMatchObject({ lowMpa: null, determined: 'poorly', consistent: true })
    })

    it('knows it poorly too where nothing bounds it from above', () => {
      const barely = { formedRadius: 2000, restingRadius: restingRadiusMm(RAIL, stick, 2000)! }
      const found = coarse([barely])
      expect(found).toMatchObject({ highMpa: null, determined: 'poorly' })
      expect(found.lowMpa).toBeLessThan(TRUE_YIELD)
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
    const wanted = onePassDepthMm(RAIL, stick, ROLLS, 1 / 800)
    expect(depthOnLineMm(found.line!.line, found.line!.rail, 800) / wanted).toBeCloseTo(1, 1)
  })

  it('by passes makes the line with the nominal yield where that means something', () => {
    const found = calibrated([pass(500), pass(1200)], true)
    expect(found.effectiveYieldMpa).toBeNull()
    expect(found.line!.rail.metal.yieldMpa).toBe(HARD_BRASS.yieldMpa)
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
    expect(found).toMatchObject({ determined: 'poorly', consistent: true, spread: null })
    expect(found.readings).toEqual([{ yieldMpa: null, lowMpa: null, highMpa: null, sensitivity: null, used: false }])
    expect(found.line!.rail.metal.yieldMpa).toBe(HARD_BRASS.yieldMpa)
    expect(depthOnLineMm(found.line!.line, found.line!.rail, 400)).toBeCloseTo(
      (pass(400, SOFT_STAINLESS, 0.5) as { depth: number }).depth,
      1,
    )
  })

  it('reads play in the bender as play, not as yield, where the temper is known', () => {
    const play = 0.2
    const passOf = (wanted: number): TestBend => ({
      depth: play + onePassDepthMm(RAIL, HARD_BRASS, ROLLS, 1 / wanted),
      chord: 500,
      ordinate: midOrdinateMm(wanted - 1.45, 500)!,
    })
    const one = calibrated([passOf(1200)])
    expect(one).toMatchObject({ effectiveYieldMpa: null, tells: ['offset'], consistent: true })
    expect(one.line!.line).toMatchObject({ offsetMm: expect.closeTo(play, 9), scale: 1 })
    const two = calibrated([passOf(500), passOf(2000)])
    expect(two.tells).toEqual(['offset', 'scale'])
    expect(two.line!.line).toMatchObject({ offsetMm: expect.closeTo(play, 6), scale: expect.closeTo(1, 6) })
    // With one bend round a form, the yield is that of the form's, and the play is still play.
    const both = calibrated([passOf(1200), radii(300, HARD_BRASS)], false)
    expect(both.tells).toEqual(['yield', 'offset'])
    expect(both.effectiveYieldMpa! / HARD_BRASS.yieldMpa).toBeCloseTo(1, 1)
    expect(both.line!.line.offsetMm).toBeCloseTo(play, 1)
  })

  it('says that passes alone do not tell a higher yield from play', () => {
    expect(calibrated([pass(800)], false).tells).toEqual(['yield-or-offset'])
    expect(calibrated([pass(500), pass(2000)], false).tells).toEqual(['yield-or-offset', 'scale'])
    expect(calibrated([radii(300)]).tells).toEqual(['yield'])
    // Both move all depths by nearly the same: 15 % of yield by 0.10 to 0.15 mm (derived).
    const shift = (wanted: number) =>
      onePassDepthMm(RAIL, withYield(HARD_BRASS, 1.15 * 345), ROLLS, 1 / wanted) -
      onePassDepthMm(RAIL, HARD_BRASS, ROLLS, 1 / wanted)
    for (const wanted of [400, 900, 2438, 6000]) {
      expect(shift(wanted)).toBeGreaterThan(0.095)
      expect(shift(wanted)).toBeLessThan(0.15)
    }
  })

  it('by a bend round a form, measured with a chord, is that of the radius it reads (by hand)', () => {
    const ordinate = 37.3
    const restingRadius = 1000 ** 2 / (8 * ordinate) + ordinate / 2 + 1.45
    const byChord = calibrated([{ formedRadius: 500, chord: 1000, ordinate }])
    const byRadius = calibrated([{ formedRadius: 500, restingRadius }])
    expect(byChord).toMatchObject({ from: 'radii', tells: ['yield'], line: null })
    expect(byChord.effectiveYieldMpa! / byRadius.effectiveYieldMpa!).toBeCloseTo(1, 8)
    // A radius is taken as read on 500 mm; on 1000 mm the same 0.05 mm are worth a quarter of that.
    expect(byChord.lowMpa!).toBeGreaterThan(byRadius.lowMpa!)
    expect(byChord.highMpa!).toBeLessThan(byRadius.highMpa!)
    expect(byChord.readings[0]!.used).toBe(true)
  })

  it('refuses every impossible bend round a form at its ordinate', () => {
    const faultOf = (test: TestBend) => {
      const result = calibrate({ ...rail, bender: null }, [test], RESOLUTION, true)
      return result.ok ? null : result.faults.map(({ path, code }) => `${path.join('/')} ${code}`)
    }
    expect(faultOf({ formedRadius: 500, chord: 500, ordinate: 0 })).toEqual(['0/ordinate impossible-test-bend'])
    // by hand: 70 mm on 500 mm is a radius of 482 mm, tighter than the form
    expect(faultOf({ formedRadius: 500, chord: 500, ordinate: 70 })).toEqual(['0/ordinate impossible-test-bend'])
    expect(faultOf({ formedRadius: 500, chord: 500, ordinate: 251 })).toEqual(['0/ordinate out-of-range'])
    expect(faultOf({ formedRadius: 500, chord: 0, ordinate: 9 })).toEqual(['0/chord out-of-range'])
    expect(faultOf({ formedRadius: 1, chord: 500, ordinate: 9 })).toEqual(['0/formedRadius out-of-range'])
    expect(faultOf({ formedRadius: 500, chord: 500, ordinate: 9 })).toBeNull()
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
    expect(calibrate(rail, [...swapped, radii(300)], RESOLUTION, true)).toMatchObject({ faults: [{ path: [1] }] })
  })
})

describe('test bends that cannot be true, told before a yield is worked out', () => {
  const swapped: TestBend[] = [
    { depth: 0.6, chord: 300, ordinate: 20 },
    { depth: 1.6, chord: 300, ordinate: 6 },
  ]
  const paths = (...asked: Parameters<typeof testBendFaults>) => testBendFaults(...asked).map(({ path }) => path)

  it('are passes that contradict one another in every metal it may be', () => {
    expect(paths(swapped, rail, [HARD_BRASS, SOFT_STAINLESS])).toEqual([[1]])
    expect(paths([pass(500), pass(1200)], rail, [HARD_BRASS, SOFT_STAINLESS])).toEqual([])
    expect(paths([radii(300)], rail, [HARD_BRASS])).toEqual([])
  })

  it('are not looked for where no metal is likely, or something is not known or could not be read', () => {
    expect(paths(swapped, rail)).toEqual([])
    for (const unknown of [{ section: undefined }, { metal: undefined }, { bender: undefined }])
      expect(paths(swapped, { ...rail, ...unknown } as never, [HARD_BRASS])).toEqual([])
    expect(paths([...swapped, null], rail, [HARD_BRASS])).toEqual([])
  })

  it('are spring-backs no metal has, which come before that', () => {
    const stiff = { formedRadius: 300, restingRadius: 300.001 }
    expect(paths([stiff], { ...rail, bender: null }, [HARD_BRASS])).toEqual([[0, 'restingRadius']])
    expect(paths([...swapped, stiff], rail, [HARD_BRASS])).toEqual([[2, 'restingRadius']])
    expect(paths([radii(300)], { ...rail, bender: null }, [HARD_BRASS])).toEqual([])
  })

  it('are single bends that cannot be, even where the rest is not known', () => {
    expect(paths([null, { formedRadius: 900, restingRadius: 700 }], {})).toEqual([[1, 'restingRadius']])
  })
})
