import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { BendFormer } from '../../src/bending/forming/form-bend.ts'
import { railToBend } from '../../src/bending/forming/rail-to-bend.ts'
import type { Bender } from '../../src/bending/forming/types.ts'
import { metalOfTemper } from '../../src/bending/metal.ts'
import { METHODS } from '../../src/bending/method.ts'
import { rectanglesOf, sectionProperties } from '../../src/bending/section-properties.ts'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { SECTIONS } from '../../src/catalogue/sections.ts'
import { USUAL_LIMITS } from './rails.ts'

const FOOT_MM = 304.8
const BENDER: Bender = {
  work: 'loose-rail',
  roller: null,
  ends: 'finish-by-hand',
  fixedEnd: 'start',
  limits: USUAL_LIMITS,
}

/** Temper null: all tempers of the material. */
interface Rail {
  readonly code: string
  readonly material: string
  readonly temper: string | null
}

function former({ code, material, temper }: Rail, bender: Partial<Bender> = {}, tieSpacingMm = 45): BendFormer {
  const section = SECTIONS.find(({ id }) => id === code)!
  const { tempers, usualTemper } = MATERIALS.find(({ id }) => id === material)!
  const metal = metalOfTemper(tempers.find(({ id }) => id === (temper ?? usualTemper))!)
  const properties = sectionProperties(rectanglesOf(section))
  const rail = { section: properties, headWidthMm: section.headWidthMm }
  return new BendFormer(railToBend(rail, metal, temper, tempers, null), { ...BENDER, ...bender }, tieSpacingMm)
}

function bent(by: BendFormer, radiusMm: number, jointsInBend: number) {
  const forming = by.form({
    rail: 'outer',
    radiusMm,
    trackRadiusMm: radiusMm,
    gaugeMm: 45,
    turnedRad: 1,
    jointsInBend,
  })
  return { ...forming, rank: METHODS.indexOf(forming.method) }
}

/** Both rails of a curve, the radius of its centre line in feet, with a joint in each. */
function methods(rail: Rail, radiusFt: number, joints = 1) {
  const by = former(rail)
  return [1, -1].map((side) => bent(by, radiusFt * FOOT_MM + side * 24.5, joints))
}

const TEMPERS = MATERIALS.flatMap(({ id: material, tempers }) =>
  tempers.map(({ id: temper }) => ({ material, temper })),
)
const anyRail: fc.Arbitrary<Rail> = fc
  .record({
    code: fc.constantFrom(...SECTIONS.map(({ id }) => id)),
    metal: fc.constantFrom(...TEMPERS, ...MATERIALS.map(({ id }) => ({ material: id, temper: null }))),
  })
  .map(({ code, metal }) => ({ code, ...metal }))
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('what is common practice, no source', () => {
  const RADII_FT = [8, 8.5, 9, 9.5, 10]

  it.each(['half-hard', 'free-cutting-half-hard'])(
    'brass rail of code 332 at 8 to 10 ft is laid by hand, sprung in with set ends: %s',
    (temper) => {
      for (const radiusFt of RADII_FT)
        for (const { method, springIn, overbendRatio } of methods(
          { code: '332', material: 'brass', temper },
          radiusFt,
        )) {
          expect(method).toBe('spring-in')
          expect(springIn).toMatchObject({ setEndsFromMm: 150, setEndsToMm: 300 })
          expect(springIn!.setShare).toBeLessThan(0.01)
          expect(springIn!.jointForceSetEndsN).toBeLessThan(springIn!.jointForceN / 3)
          // Such a ratio could not be bent evenly by hand, and does not decide here.
          expect(overbendRatio!).toBeGreaterThan(4)
        }
    },
  )

  it.each(['annealed', 'extruded', null])(
    'so is softer brass, or brass of unknown temper, without a machine: %s',
    (temper) => {
      for (const radiusFt of RADII_FT)
        for (const { method } of methods({ code: '332', material: 'brass', temper }, radiusFt))
          expect(method).not.toBe('machine')
    },
  )

  it.each(['annealed', 'quarter-hard', '316-annealed', null])(
    'the same in stainless wants a rail bender, or the track kinks at its joints: %s',
    (temper) => {
      for (const radiusFt of RADII_FT)
        for (const { method, reasonId, reason } of methods({ code: '332', material: 'stainless', temper }, radiusFt)) {
          expect(method).toBe('machine')
          expect(reasonId).toBe('joints')
          expect(reason).toContain('kink')
        }
    },
  )

  it.each(['annealed', 'extruded'])('soft brass bends by hand at 4 to 5 ft: %s', (temper) => {
    for (const code of ['332', '250'])
      for (const radiusFt of [4, 4.5, 5])
        for (const joints of [0, 1])
          for (const { method } of methods({ code, material: 'brass', temper }, radiusFt, joints))
            expect(method).toBe('hand')
  })

  it('a curve of 60 ft springs in whatever the rail', () => {
    for (const { id: code } of SECTIONS)
      for (const metal of TEMPERS)
        for (const { method } of methods({ code, ...metal }, 60)) expect(method).toBe('spring-in')
  })

  it('a gentle curve of assembled track is sprung in, a tight one is formed by a machine', () => {
    const by = former({ code: '332', material: 'brass', temper: 'half-hard' }, { work: 'assembled' })
    expect(bent(by, 9 * FOOT_MM, 1)).toMatchObject({ method: 'spring-in', assembled: { fixedEnd: 'start' } })
    expect(bent(by, 4 * FOOT_MM, 1)).toMatchObject({ method: 'machine', reasonId: 'assembled' })
  })
})

describe('gentler never asks for more than tighter', () => {
  const work = fc.constantFrom('loose-rail' as const, 'assembled' as const)

  it('over sections, tempers, work, joints and 4 to 60 ft', () => {
    const radiusFt = between(4, 60)
    fc.assert(
      fc.property(anyRail, work, fc.nat(2), between(20, 200), radiusFt, radiusFt, (rail, kind, joints, ties, a, b) => {
        const by = former(rail, { work: kind }, ties)
        const [tight, gentle] = [Math.min(a, b), Math.max(a, b)].map((ft) => bent(by, ft * FOOT_MM, joints))
        expect(gentle!.rank).toBeLessThanOrEqual(tight!.rank)
      }),
      { numRuns: 500 },
    )
  })

  it('from 1 to 60 ft, in every section and temper', () => {
    const gentleFirst = [60, 40, 30, 25, 20, 17, 15, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4.5, 4, 3, 2, 1]
    for (const { id: code } of SECTIONS)
      for (const metal of TEMPERS) {
        const by = former({ code, ...metal })
        for (const joints of [0, 1]) {
          const ranks = gentleFirst.map((ft) => bent(by, ft * FOOT_MM, joints).rank)
          expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
        }
      }
  })

  it('with limits of any size', () => {
    const scale = between(Math.log(0.05), Math.log(20)).map(Math.exp)
    const limits = fc
      .record({
        overbendRatio: scale,
        grip: scale,
        handForceN: scale,
        jointFlat: scale,
        setShare: scale,
        tieForceN: scale,
        jointForceN: scale,
      })
      .map((factors) => {
        const scaled = Object.entries(factors).map(([key, factor]) => [
          key,
          USUAL_LIMITS[key as keyof typeof factors] * factor,
        ])
        return Object.fromEntries(scaled) as typeof USUAL_LIMITS
      })
    const radius = between(Math.log(150), Math.log(20_000)).map(Math.exp)
    fc.assert(
      fc.property(anyRail, work, limits, fc.nat(1), radius, radius, (rail, kind, own, joints, a, b) => {
        const by = former(rail, { work: kind, limits: own })
        const [tight, gentle] = [Math.min(a, b), Math.max(a, b)].map((mm) => bent(by, mm, joints))
        expect(gentle!.rank).toBeLessThanOrEqual(tight!.rank)
      }),
      { numRuns: 500 },
    )
  })

  it('springs in only with figures for it', () => {
    fc.assert(
      fc.property(anyRail, between(1, 60), fc.nat(1), (rail, ft, joints) => {
        const { method, springIn } = bent(former(rail), ft * FOOT_MM, joints)
        if (method === 'spring-in') expect(springIn).not.toBeNull()
      }),
    )
  })
})
