import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { calibrate } from '../../../src/bending/calibration/calibration.ts'
import { DEFAULT_RESOLUTION } from '../../../src/bending/calibration/effective-yield.ts'
import { BendFormer, type CurveRail } from '../../../src/bending/forming/form-bend.ts'
import { type RailToBend, railToBend } from '../../../src/bending/forming/rail-to-bend.ts'
import type { Bender, BendForming } from '../../../src/bending/forming/types.ts'
import { metalOfTemper, withYield } from '../../../src/bending/metal.ts'
import { midOrdinateMm } from '../../../src/bending/ordinates.ts'
import { onePassDepthMm } from '../../../src/bending/roller/model-for.ts'
import { formingCurvature, restingRadiusMm } from '../../../src/bending/springback.ts'
import { MATERIALS } from '../../../src/catalogue/materials.ts'
import {
  anyMetal,
  anyRadiusMm,
  anySection,
  HARD_BRASS,
  IDEAL,
  RAIL,
  ROLLS,
  THREE_LAWS,
  USUAL_LIMITS,
} from '../rails.ts'

const HEAD_MM = 2.9
const BY_HAND: Bender = {
  work: 'loose-rail',
  roller: null,
  ends: 'finish-by-hand',
  fixedEnd: 'start',
  limits: USUAL_LIMITS,
}
const BRASS_TEMPERS = MATERIALS.find(({ id }) => id === 'brass')!.tempers

const known = (metal = HARD_BRASS): RailToBend =>
  railToBend({ section: RAIL, headWidthMm: HEAD_MM }, metal, 'half-hard', BRASS_TEMPERS, null)
const unknown = railToBend({ section: RAIL, headWidthMm: HEAD_MM }, HARD_BRASS, null, BRASS_TEMPERS, null)
const curve = (radiusMm: number, more: Partial<CurveRail> = {}): CurveRail => ({
  rail: 'outer',
  radiusMm,
  trackRadiusMm: radiusMm - 23.95,
  gaugeMm: 45,
  turnedRad: Math.PI / 2,
  jointsInBend: 0,
  ...more,
})
const formed = (rail: RailToBend, radiusMm: number, bender = BY_HAND, more: Partial<CurveRail> = {}) =>
  new BendFormer(rail, bender, 44.45).form(curve(radiusMm, more))

describe('a rail of known temper', () => {
  it('bent to the answered radius and let go rests at the wanted one; the band holds the figure', () => {
    fc.assert(
      fc.property(anySection, anyMetal, anyRadiusMm, (section, metal, radiusMm) => {
        const wantedMm = radiusMm + 2 * section.extremeFibreMm
        const rail = railToBend({ section, headWidthMm: 1 }, metal, 'own', [], null)
        const { formingRadiusMm, band, overbendRatio } = formed(rail, wantedMm)
        const rested = restingRadiusMm(section, metal, formingRadiusMm!)!
        expect(Math.abs(rested / wantedMm - 1)).toBeLessThan(1e-9)
        expect(band.lowMm).toBeLessThanOrEqual(formingRadiusMm!)
        expect(band.highMm).toBeGreaterThanOrEqual(formingRadiusMm!)
        expect(overbendRatio!).toBeGreaterThanOrEqual(1 - 1e-12)
      }),
    )
  })

  it('the band is the forming radius at 15 % more and 15 % less yield', () => {
    const at = (share: number) => formed(known(withYield(HARD_BRASS, 345 * share)), 2438).formingRadiusMm!
    const { band } = formed(known(), 2438)
    expect(band.lowMm).toBeCloseTo(at(1.15), 6)
    expect(band.highMm).toBeCloseTo(at(0.85), 6)
  })

  it('a tighter curve and a higher yield are both formed tighter', () => {
    for (const metal of THREE_LAWS) {
      const radii = [400, 800, 1600, 3200, 6400].map((mm) => formed(known(metal), mm).formingRadiusMm!)
      expect(radii).toEqual([...radii].sort((a, b) => a - b))
      const yields = [100, 200, 300, 400].map((mpa) => formed(known(withYield(metal, mpa)), 2438).formingRadiusMm!)
      expect(yields).toEqual([...yields].sort((a, b) => b - a))
    }
  })

  it('limits: moment, strain and elastic radius of a metal that stays elastic up to its yield', () => {
    const answer = formed(known(IDEAL), 2438)
    // closed form: r = c·E/sy, c half of the foot of 5.6 mm; strain c/R
    expect(answer.elasticLimitRadiusMm).toBeCloseTo((2.8 * 110_300) / 345, 8)
    expect(answer.elasticLimitSetShare).toBe(0)
    expect(answer.maxStrainPct).toBeCloseTo((100 * 2.8) / answer.formingRadiusMm!, 10)
    expect(answer.elongationPct).toBeNull()
    // closed form: the outermost fibre yields at 345 MPa and unloads by E·c·(1/formed − 1/wanted)
    const unloadsMpa = 110_300 * 2.8 * (1 / answer.formingRadiusMm! - 1 / 2438)
    expect(answer.residualStressMpa!).toBeCloseTo(345 - unloadsMpa, 6)
    expect(answer.residualStressMpa!).toBeLessThan(0)
    expect(answer.residualStressInsideMpa!).toBeGreaterThan(0)
  })

  it('the moment is what springs back: E·I·(1/formed − 1/wanted) (closed form)', () => {
    for (const metal of THREE_LAWS) {
      const { momentNm, formingRadiusMm } = formed(known(metal), 2438)
      const elasticNmm = metal.youngsModulusMpa * RAIL.lateralSecondMomentMm4 * (1 / formingRadiusMm! - 1 / 2438)
      expect(momentNm! / (elasticNmm / 1000)).toBeCloseTo(1, 9)
    }
  })

  it('is sprung in with the couple E·I/R, the pair over one tie spacing and what its joints push with', () => {
    const limitMm = formed(known(IDEAL), 2438).elasticLimitRadiusMm!
    const sprung = formed(known(IDEAL), 2 * limitMm).springIn!
    // closed form
    const coupleNm = (110_300 * RAIL.lateralSecondMomentMm4) / (2 * limitMm) / 1000
    expect(sprung.endCoupleNm).toBeCloseTo(coupleNm, 9)
    expect(sprung.forcePairN).toBeCloseTo((coupleNm * 1000) / 44.45, 9)
    expect(sprung.jointForceN).toBe(sprung.forcePairN)
    expect(sprung.jointForceSetEndsN).toBeCloseTo((coupleNm * 1000) / 150, 9)
    expect(sprung.handForceN).toBeCloseTo((coupleNm * 1000) / 300, 9)
    expect(sprung.jointKinkDeg).toBeCloseTo(((180 / Math.PI) * 1.57735027 * 44.45) / (2 * limitMm), 6)
    expect(sprung).toMatchObject({ tieSpacingMm: 44.45, setEndsFromMm: 150, setEndsToMm: 300, setShare: 0 })
  })

  it('weighs the overbend ratio and the moment that it answers', () => {
    const { checks, overbendRatio, momentNm } = formed(known(), 600)
    const figure = (id: string) => checks.find(({ reason }) => reason === id)!.value!
    expect(figure('overbend')).toBeCloseTo(overbendRatio!, 12)
    expect(figure('hand-force')).toBeCloseTo((momentNm! * 1000) / 300, 12)
  })

  it('has figures for springing in down to the elastic limit, and as long as no more sets than is allowed', () => {
    const atShare = (setShare: number, radiusMm: number) =>
      formed(known(IDEAL), radiusMm, { ...BY_HAND, limits: { ...USUAL_LIMITS, setShare } }).springIn
    const limitMm = formed(known(IDEAL), 2438).elasticLimitRadiusMm!
    expect(atShare(0, limitMm)).not.toBeNull()
    expect(atShare(0, limitMm * 0.999)).toBeNull()
    // Of brass a little sets at any radius.
    const never = { ...BY_HAND, limits: { ...USUAL_LIMITS, setShare: 0 } }
    expect(formed(known(HARD_BRASS), limitMm, never).springIn!.setShare).toBeGreaterThan(0)
    expect(formed(known(HARD_BRASS), limitMm * 0.999, never).springIn).toBeNull()
    const tighter = atShare(1, limitMm * 0.9)!
    expect(tighter.setShare).toBeGreaterThan(0)
    expect(atShare(tighter.setShare, limitMm * 0.9)).toEqual(tighter)
    expect(atShare(tighter.setShare * 0.999, limitMm * 0.9)).toBeNull()
  })

  it('answers a curve asked for again as before, and the joints of each by themselves', () => {
    const former = new BendFormer(known(), BY_HAND, 45)
    const [first, again] = [former.form(curve(1500)), former.form(curve(1500, { jointsInBend: 2 }))]
    expect({ ...again, method: first.method, reasonId: first.reasonId, reason: first.reason, checks: [] }).toEqual({
      ...first,
      checks: [],
    })
    // by hand: a flat of 300 mm on 1500 mm stands off 300²/12000 = 7.5 mm; the ties can pull the ends of so thin a rail in
    expect(again.checks.find(({ reason }) => reason === 'joints')).toMatchObject({ value: 7.5, favours: 'hand' })
    expect(first.checks.find(({ reason }) => reason === 'joints')).toMatchObject({ value: 0, favours: 'hand' })
  })
})

describe('a rail of unknown temper', () => {
  it('has the figure of each temper, the range over them, and no single one', () => {
    const answer = formed(unknown, 2438)
    const each = BRASS_TEMPERS.map((temper) => formed(known(metalOfTemper(temper)), 2438))
    expect(answer.tempers.map(({ formingRadiusMm }) => formingRadiusMm)).toEqual(
      each.map(({ formingRadiusMm }) => expect.closeTo(formingRadiusMm!, 8)),
    )
    const radii = each.map(({ formingRadiusMm }) => formingRadiusMm!)
    expect(answer.band.lowMm).toBeCloseTo(Math.min(...radii), 8)
    expect(answer.band.highMm).toBeCloseTo(Math.max(...radii), 8)
    for (const row of answer.tempers) {
      expect(row.band.lowMm).toBeLessThan(row.formingRadiusMm)
      expect(row.band.highMm).toBeGreaterThan(row.formingRadiusMm)
    }
    const figures = [answer.formingRadiusMm, answer.momentNm, answer.maxStrainPct, answer.machine]
    expect([answer.basis, ...figures]).toEqual(Array(5).fill(null))
  })

  it('is weighed by the temper that asks for most, and by the one that sets least', () => {
    const checkOf = (answer: BendForming, id: string) => answer.checks.find(({ reason }) => reason === id)!.value!
    for (const radiusMm of [900, 2438, 6000]) {
      const answer = formed(unknown, radiusMm)
      const each = BRASS_TEMPERS.map((temper) => formed(known(metalOfTemper(temper)), radiusMm))
      for (const id of ['overbend', 'tie-force', 'spring-force', 'hand-force', 'left-to-ties'])
        expect(checkOf(answer, id)).toBeCloseTo(Math.max(...each.map((of) => checkOf(of, id))), 8)
      expect(checkOf(answer, 'set-share')).toBeCloseTo(Math.min(...each.map((of) => checkOf(of, 'set-share'))), 12)
    }
  })

  it('is sprung in with the figures of the temper that pushes hardest on the ties, half-hard brass', () => {
    const halfHard = BRASS_TEMPERS.find(({ id }) => id === 'half-hard')!
    expect(formed(unknown, 2438)).toMatchObject({ method: 'spring-in', reasonId: 'springs-in' })
    expect(formed(unknown, 2438).springIn).toEqual(formed(known(metalOfTemper(halfHard)), 2438).springIn)
    expect(formed(unknown, 300).springIn).toBeNull()
    // In stainless that is the second of the tempers, of the same modulus and the higher yield.
    const { tempers } = MATERIALS.find(({ id }) => id === 'stainless')!
    const rail = railToBend({ section: RAIL, headWidthMm: HEAD_MM }, HARD_BRASS, null, tempers, null)
    expect(formed(rail, 1200).springIn).toEqual(formed(known(metalOfTemper(tempers[1]!)), 1200).springIn)
    expect(formed(rail, 1200).springIn).not.toEqual(formed(known(metalOfTemper(tempers[0]!)), 1200).springIn)
  })
})

describe('a calibrated rail', () => {
  const rollers = { ...BY_HAND, roller: { ...ROLLS, maxPerPassMm: null } }

  it('takes the yield of its test bends and their band, whatever the temper says', () => {
    const truth = withYield(HARD_BRASS, 250)
    const restingMm = restingRadiusMm(RAIL, truth, 400)!
    const told = calibrate(
      { section: RAIL, metal: HARD_BRASS, bender: null },
      [{ formedRadius: 400, restingRadius: restingMm }],
      DEFAULT_RESOLUTION,
      true,
    )
    if (!told.ok) throw new Error(JSON.stringify(told.faults))
    const { calibration } = told
    const rail = railToBend(
      { section: RAIL, headWidthMm: HEAD_MM },
      HARD_BRASS,
      'half-hard',
      BRASS_TEMPERS,
      calibration,
    )
    const answer = formed(rail, 2438)
    expect(answer.basis).toBe('calibrated')
    expect(answer.formingRadiusMm! / formed(known(truth), 2438).formingRadiusMm!).toBeCloseTo(1, 9)
    expect(rail.yields).toEqual({ lowMpa: calibration.lowMpa, highMpa: calibration.highMpa })
    expect(answer.tempers).toEqual([])
  })

  it('sets the bender by its own passes, not by the starting estimate', () => {
    // A bender with 0.4 mm of play that needs a tenth more depth than estimated.
    const play = (restingMm: number) => 0.4 + 1.1 * onePassDepthMm(RAIL, HARD_BRASS, ROLLS, 1 / restingMm)
    const chordMm = 500
    const passes = [1500, 2500, 4000].map((restingRadius) => ({
      depth: play(restingRadius),
      chord: chordMm,
      ordinate: midOrdinateMm(restingRadius - HEAD_MM / 2, chordMm)!,
    }))
    const told = calibrate({ section: RAIL, metal: HARD_BRASS, bender: ROLLS }, passes, DEFAULT_RESOLUTION, true)
    if (!told.ok) throw new Error(JSON.stringify(told.faults))
    const rail = railToBend(
      { section: RAIL, headWidthMm: HEAD_MM },
      HARD_BRASS,
      'half-hard',
      BRASS_TEMPERS,
      told.calibration,
    )
    const machine = formed(rail, 2000, rollers).machine!
    expect(machine.depthFrom).toBe('test-passes')
    expect(machine.depthMm).toBeCloseTo(play(2000), 6)
    expect(machine.turns).toBeCloseTo(play(2000) / 1.25, 6)
    expect(machine.passes.at(-1)!.depthMm).toBeCloseTo(play(2000), 6)
  })

  it('has no setting without rollers, nor where the rail would go deeper than half their span', () => {
    expect(formed(known(), 2000)).toMatchObject({ machine: null, noMachine: 'no-rollers' })
    expect(formed(unknown, 2000)).toMatchObject({ machine: null, noMachine: 'no-rollers' })
    expect(formed(unknown, 2000, rollers)).toMatchObject({ machine: null, noMachine: 'yield-unknown' })
    const far: Bender = { ...BY_HAND, roller: { ...ROLLS, maxPerPassMm: null, spanMm: 300 } }
    expect(formed(known(), 30, far)).toMatchObject({ machine: null, noMachine: 'span-too-long' })
    expect(formed(known(), 50, far).machine!.depthMm).toBeLessThan(150)
  })

  it('has no setting where the bender’s own line ends before the rail is touched', () => {
    const line = { line: { offsetMm: -0.6, scale: 1 }, rail: { section: RAIL, metal: HARD_BRASS, bender: ROLLS } }
    const rail = { ...known(), line } as unknown as RailToBend
    expect(formed(rail, 100_000, rollers)).toMatchObject({ machine: null, noMachine: 'before-touching' })
    expect(formed(rail, 1000, rollers).machine!.depthMm).toBeGreaterThan(0)
  })

  it('writes out no schedule of over a hundred passes, whose last is as deep as after ever smaller steps', () => {
    const inSteps = (maxPerPassMm: number) =>
      formed(known(), 2000, { ...BY_HAND, roller: { ...ROLLS, maxPerPassMm } }).machine!
    expect(inSteps(0.1).passes.length).toBeGreaterThan(3)
    expect(inSteps(1e-3).passes).toEqual([])
    expect(inSteps(1e-3).depthMm).toBeGreaterThan(inSteps(0.1).depthMm)
    expect(inSteps(1e-3).depthMm / inSteps(0.02).depthMm).toBeCloseTo(1, 1)
  })

  it('keeps the steps of the screw to the limit where its line is steeper than the estimate', () => {
    const line = { line: { offsetMm: 0.3, scale: 1.5 }, rail: { section: RAIL, metal: HARD_BRASS, bender: ROLLS } }
    const rail = { ...known(), line } as unknown as RailToBend
    const { passes } = formed(rail, 900, { ...BY_HAND, roller: ROLLS }).machine!
    expect(passes.length).toBeGreaterThan(2)
    const depths = passes.map(({ depthMm }) => depthMm)
    for (const [index, depth] of depths.slice(1).entries())
      expect(depth - depths[index]!).toBeLessThanOrEqual(0.5 + 2e-3)
    const estimated = formed(known(), 900, { ...BY_HAND, roller: { ...ROLLS, maxPerPassMm: 0.5 / 1.5 } }).machine!
    expect(passes.map(({ depthMm }) => depthMm)).toEqual(
      estimated.passes.map(({ depthMm }) => expect.closeTo(0.3 + 1.5 * depthMm, 9)),
    )
  })

  it('without test passes the starting estimate stands in', () => {
    const { machine } = formed(known(), 2000, rollers)
    expect(machine).toMatchObject({ depthFrom: 'starting-estimate', straightEndMm: 40, trimLengthMm: 80 })
    expect(machine!.depthMm).toBeCloseTo(onePassDepthMm(RAIL, HARD_BRASS, ROLLS, 1 / 2000), 9)
    expect(machine!.elasticDepthMm).toBeLessThan(machine!.depthMm)
  })
})

it('assembled track has one setting for both rails, that of the centre line', () => {
  const bender: Bender = { ...BY_HAND, work: 'assembled', roller: ROLLS }
  const outer = formed(known(), 2023.95, bender, { trackRadiusMm: 2000 })
  const inner = formed(known(), 1976.05, bender, { rail: 'inner', trackRadiusMm: 2000 })
  expect(outer.machine).toEqual(inner.machine)
  expect(outer.machine!.passes.at(-1)!.leavesRadiusMm).toBeCloseTo(2000, 6)
  expect(outer.machine).toEqual(formed(known(), 2000, { ...BY_HAND, roller: ROLLS }).machine)
  expect(outer.formingRadiusMm).not.toBe(inner.formingRadiusMm)
})

it('assembled track: one setting misses each rail by half of what lies between them; the inner rail creeps', () => {
  const bender: Bender = { ...BY_HAND, work: 'assembled', fixedEnd: 'end' }
  const outer = formed(known(), 2023.95, bender, { trackRadiusMm: 2000 })
  const inner = formed(known(), 1976.05, bender, { rail: 'inner', trackRadiusMm: 2000 })
  // by hand: b = 45 + 2.9 = 47.9
  expect(outer).toMatchObject({ method: 'spring-in', reasonId: 'springs-in' })
  expect(formed(known(), 623.95, bender, { trackRadiusMm: 600 })).toMatchObject({
    method: 'machine',
    reasonId: 'assembled',
  })
  expect(outer.assembled!.missMm).toBeCloseTo(-23.95, 9)
  expect(inner.assembled!.missMm).toBeCloseTo(23.95, 9)
  expect(inner.assembled!.missPct).toBeCloseTo((100 * 23.95) / 1976.05, 9)
  expect(inner.assembled).toMatchObject({
    creepMm: expect.closeTo((47.9 * Math.PI) / 2, 9),
    fixedEnd: 'end',
    trimAt: 'start',
  })
  expect(formed(known(), 2023.95).assembled).toBeNull()
})

it('the curvature to bend to is zero for straight rail and null without a yield', () => {
  const former = new BendFormer(known(), BY_HAND, 45)
  expect(former.formingCurvature(0)).toBe(0)
  expect(1 / former.formingCurvature(1 / 2438)!).toBeCloseTo(formed(known(), 2438).formingRadiusMm!, 9)
  expect(former.formingCurvature(1 / 2438)).toBe(former.formingCurvature(1 / 2438))
  expect(new BendFormer(unknown, BY_HAND, 45).formingCurvature(1 / 2438)).toBeNull()
})

it('a curvature that was worked out before is the same to the last bit, however many came between', () => {
  const first = new BendFormer(known(), BY_HAND, 45)
  const wanted = Array.from({ length: 3000 }, (_, n) => 1 / (800 + n))
  const formedOnce = wanted.map((perMm) => first.formingCurvature(perMm))
  const again = new BendFormer(known(), BY_HAND, 45)
  for (const [n, perMm] of wanted.entries()) {
    expect(formedOnce[n]).toBe(formingCurvature(RAIL, HARD_BRASS, perMm))
    expect(again.formingCurvature(perMm)).toBe(formedOnce[n])
  }
  const softer = withYield(HARD_BRASS, HARD_BRASS.yieldMpa / 2)
  expect(new BendFormer(known(softer), BY_HAND, 45).formingCurvature(1 / 2438)).toBe(
    formingCurvature(RAIL, softer, 1 / 2438),
  )
})
