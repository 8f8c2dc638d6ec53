import { describe, expect, it } from 'vitest'
import { BendFormer } from '../../src/bending/forming/form-bend.ts'
import { railToBend } from '../../src/bending/forming/rail-to-bend.ts'
import type { CalibrationAnswer } from '../../src/bending/forming/types.ts'
import type { Metal } from '../../src/bending/metal.ts'
import type { RollerBender } from '../../src/bending/roller/roller-bender.ts'
import { type SectionProperties, sectionProperties } from '../../src/bending/section-properties.ts'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { bendingFindings, type FormedBend } from '../../src/checking/bending.ts'
import { HARD_BRASS, IDEAL, RAIL, ROLLS, USUAL_LIMITS } from '../bending/rails.ts'

const BY_HAND = {
  work: 'loose-rail',
  roller: null,
  ends: 'finish-by-hand',
  fixedEnd: 'start',
  limits: USUAL_LIMITS,
} as const
/** Ties that hold nothing, so that every rail is bent. */
const NOTHING_HELD = { ...USUAL_LIMITS, tieForceN: 1e-9 }
const TEMPERS = MATERIALS[0]!.tempers

/** Both rails of a curve whose outer rail has a radius; without a metal the temper is unknown. */
function curve(
  radiusMm: number,
  metal: Metal | null,
  section: SectionProperties = RAIL,
  roller: RollerBender | null = null,
  limits = NOTHING_HELD,
): FormedBend[] {
  const rail = railToBend({ section, headWidthMm: 2 }, metal ?? HARD_BRASS, metal ? 'own' : null, TEMPERS, null)
  const former = new BendFormer(rail, { ...BY_HAND, roller, limits }, 45)
  return (['outer', 'inner'] as const).map((which) => {
    const own = which === 'outer' ? radiusMm : radiusMm - 47
    const at = { trackRadiusMm: radiusMm - 23.5, gaugeMm: 45, turnedRad: 1, jointsInBend: 0 }
    return { track: 'main', element: 3, rail: which, forming: former.form({ rail: which, radiusMm: own, ...at }) }
  })
}

const TOLD: CalibrationAnswer = {
  effectiveYieldMpa: 300,
  lowMpa: 290,
  highMpa: 310,
  determined: 'well',
  from: 'radii',
  consistent: true,
  readings: [],
  tells: ['yield'],
  benderLine: null,
}

const rules = (bends: FormedBend[], metal: Metal | null, told: CalibrationAnswer | null = null) =>
  bendingFindings(bends, told, { name: 'Brass', metal, roller: null }).map(
    ({ rule, severity }) => `${rule} ${severity}`,
  )

it('says nothing of a metal that is known and spared', () => {
  expect(rules(curve(2438, HARD_BRASS), HARD_BRASS, TOLD)).toEqual([])
  expect(rules([], HARD_BRASS)).toEqual([])
})

it('finds nothing where rail is sprung in instead of bent', () => {
  const fine = { ...ROLLS, maxPerPassMm: 0.001 }
  const of = (radiusMm: number, metal: Metal | null, limits: typeof USUAL_LIMITS) =>
    bendingFindings(curve(radiusMm, metal, RAIL, fine, limits), null, { name: 'Brass', metal, roller: fine }).map(
      ({ rule }) => rule,
    )
  expect(of(2438, HARD_BRASS, NOTHING_HELD)).toEqual(['too-many-passes'])
  expect(of(2438, HARD_BRASS, USUAL_LIMITS)).toEqual([])
  expect(of(2438, null, NOTHING_HELD)).toEqual(['temper-unknown'])
  expect(of(2438, null, USUAL_LIMITS)).toEqual([])
  const brittle = { ...HARD_BRASS, elongationPct: 0.1 }
  expect(of(2438, brittle, NOTHING_HELD)).toContain('over-strained')
  expect(of(2438, brittle, USUAL_LIMITS)).toEqual([])
})

it('asks for a test bend where the temper is unknown, once, and only where something is bent', () => {
  expect(rules([...curve(2438, null), ...curve(1500, null)], null)).toEqual(['temper-unknown note'])
  expect(rules([], null)).toEqual([])
  const [finding] = bendingFindings(curve(2438, null), null, { name: 'Brass', metal: null, roller: null })
  expect(finding).toMatchObject({ track: null, element: null })
  expect(finding!.cure).toContain('test bend')
})

describe('strain', () => {
  // Bent to R the foot of 5.6 mm is strained by 2.8/R at its edge.
  const [outer] = curve(600, IDEAL)
  const strainPct = outer!.forming.maxStrainPct!
  const severities = (elongationPct: number | null) => {
    const metal = { ...IDEAL, elongationPct }
    return rules(curve(600, metal).slice(0, 1), metal)
  }

  it('warns from half the elongation on and stops at the whole of it', () => {
    expect(severities(strainPct * 2.001)).toEqual([])
    expect(severities(strainPct * 1.999)).toEqual(['over-strained warn'])
    expect(severities(strainPct * 1.001)).toEqual(['over-strained warn'])
    expect(severities(strainPct)).toEqual(['over-strained stop'])
    expect(severities(null)).toEqual([])
  })

  it('names the rail, where it lies and both figures', () => {
    const metal = { ...IDEAL, elongationPct: 0.5 }
    const found = bendingFindings(curve(600, metal), null, { name: 'Brass', metal, roller: null })
    expect(found.map(({ message }) => /outer|inner/.exec(message)?.[0])).toEqual(['outer', 'inner'])
    expect(found[0]).toMatchObject({ track: 'main', element: 3, measured: strainPct, limit: 0.5, unit: '%' })
  })
})

it('test bends that contradict one another, or tell little', () => {
  const bends = curve(2438, HARD_BRASS)
  expect(rules(bends, HARD_BRASS, { ...TOLD, consistent: false })).toEqual(['calibration-inconsistent warn'])
  expect(rules(bends, HARD_BRASS, { ...TOLD, determined: 'poorly' })).toEqual(['calibration-poor note'])
  expect(rules(bends, HARD_BRASS, { ...TOLD, determined: 'fairly' })).toEqual([])
})

describe('unloading that yields backwards', () => {
  // A wide thin foot on a thick web: by hand I = (0.3·6³ + 6·2³)/12 = 9.4, Zpl = (0.3·6² + 6·2²)/4 = 8.7, c = 3; the
  // plastic moment would unload the face by 345·8.7·3/9.4 = 958 MPa, to 613 the other way: over its yield.
  const thin = sectionProperties([
    { widthMm: 6, heightMm: 0.3 },
    { widthMm: 2, heightMm: 6 },
  ])

  it('is noted once a curve, with the stress and the yield', () => {
    const found = bendingFindings(curve(300, IDEAL, thin), null, { name: 'Brass', metal: IDEAL, roller: null })
    expect(found).toHaveLength(1)
    expect(found[0]).toMatchObject({
      rule: 'yields-backwards',
      severity: 'note',
      track: 'main',
      element: 3,
      limit: 345,
    })
    expect(found[0]!.measured!).toBeGreaterThan(345)
    expect(found[0]!.measured!).toBeLessThan((345 * 8.7 * 3) / 9.4 - 345)
  })

  it('does not happen where little of the section yields', () => {
    expect(rules(curve(60_000, IDEAL, thin), IDEAL)).toEqual([])
  })
})

describe('rollers', () => {
  const found = (radiusMm: number, roller: RollerBender) =>
    bendingFindings(curve(radiusMm, HARD_BRASS, RAIL, roller), null, { name: 'Brass', metal: HARD_BRASS, roller })

  it('that suit the curve are passed over', () => {
    expect(found(2438, ROLLS)).toEqual([])
    expect(found(2438, { ...ROLLS, maxPerPassMm: null })).toEqual([])
  })

  it('that stand too far apart have no setting, said once a curve', () => {
    const wide = { ...ROLLS, spanMm: 3000 }
    expect(curve(600, HARD_BRASS, RAIL, wide).map(({ forming: { machine } }) => machine)).toEqual([null, null])
    expect(curve(600, HARD_BRASS, RAIL, wide).map(({ forming: { noMachine } }) => noMachine)).toEqual([
      'span-too-long',
      'span-too-long',
    ])
    expect(found(600, wide).map(({ rule, severity, measured }) => [rule, severity, measured])).toEqual([
      ['span-too-long', 'warn', 3000],
    ])
  })

  it('whose line of test passes ends before the rail is touched have no setting either', () => {
    // A line through deep passes that takes 2 mm off every estimate: flat curves come out below zero.
    const estimate = { section: RAIL, metal: HARD_BRASS, bender: ROLLS }
    const line = { line: { offsetMm: -2, scale: 1, passes: 3, hasScale: true, spreadMm: 0 }, rail: estimate }
    const rail = { ...railToBend({ section: RAIL, headWidthMm: 2.9 }, HARD_BRASS, 'half-hard', [], null), line }
    const former = new BendFormer(rail, { ...BY_HAND, roller: ROLLS, limits: NOTHING_HELD }, 45)
    const bend = (radiusMm: number) => ({
      track: 'main',
      element: 3,
      rail: 'outer' as const,
      forming: former.form({
        rail: 'outer',
        radiusMm,
        trackRadiusMm: radiusMm,
        gaugeMm: 45,
        turnedRad: 1,
        jointsInBend: 0,
      }),
    })
    const found = (radiusMm: number) =>
      bendingFindings([bend(radiusMm)], null, { name: 'Brass', metal: HARD_BRASS, roller: ROLLS })
    expect(bend(9000).forming).toMatchObject({ machine: null, noMachine: 'before-touching' })
    expect(found(9000)).toMatchObject([{ rule: 'line-before-touching', severity: 'warn', element: 3 }])
    expect(bend(150).forming.machine!.depthMm).toBeGreaterThan(0)
    expect(bend(150).forming.noMachine).toBeNull()
    expect(found(150)).toEqual([])
  })

  it('that are set too finely get a depth, and no endless schedule', () => {
    const fine = { ...ROLLS, maxPerPassMm: 1e-6 }
    const [bend] = curve(2438, HARD_BRASS, RAIL, fine)
    expect(bend!.forming.machine).toMatchObject({ passes: [] })
    expect(bend!.forming.machine!.depthMm).toBeGreaterThan(0.5)
    expect(found(2438, fine).map(({ rule }) => rule)).toEqual(['too-many-passes'])
  })
})
