import { describe, expect, it } from 'vitest'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { estimateOf, planOf, straight } from '../estimate/plans.ts'
import { blindRows, type Label, misses, type Row } from './rows.ts'

/**
 * Typical properties at 20 °C: modulus GPa, yield MPa, tensile strength MPa, elongation %, expansion 1e-6/K, density
 * kg/m³, resistivity 1e-8 Ω·m. Brass: Copper Development Association, cold-rolled table 2, ASTM B36 and B16, CDA alloy
 * 385. Stainless: AISI types 304 and 316, EN 10088-1, ASTM A666. Aluminium: Aluminum Association, typical. Steel: SAE
 * J1397. Rows seen in those sources are published. Last the Ramberg–Osgood exponent, which none of them prints.
 */
const PRINTED: [material: string, temper: string, numbers: number[], label: Label, exponent: number][] = [
  ['brass', 'half-hard', [110.3, 345, 427, 23, 20, 8530, 6.16], 'published', 19],
  ['brass', 'annealed', [110.3, 110, 338, 57, 20, 8530, 6.16], 'from memory', 4.5],
  ['brass', 'free-cutting-half-hard', [96.5, 310, 400, 25, 20.5, 8500, 6.63], 'published', 16.5],
  ['brass', 'extruded', [96.5, 138, 414, 30, 20.9, 8470, 6.16], 'published', 4],
  ['stainless', 'annealed', [193, 290, 579, 55, 17.3, 7900, 72], 'from memory', 7],
  ['stainless', 'quarter-hard', [193, 517, 862, 10, 17.3, 7900, 72], 'published', 6.5],
  ['stainless', '316-annealed', [193, 290, 579, 50, 16, 8000, 74], 'from memory', 7],
  ['aluminium', '6061-t6', [68.9, 276, 310, 12, 23.6, 2700, 3.99], 'published', 29.5],
  ['aluminium', '6063-t5', [68.9, 145, 186, 12, 23.4, 2700, 3.16], 'published', 13.5],
  ['aluminium', '6063-t6', [68.9, 214, 241, 12, 23.4, 2700, 3.25], 'published', 28],
  ['nickel-silver', 'half-hard', [124, 427, 510, 8, 16.2, 8730, 28.7], 'from memory', 17],
  ['steel', 'cold-drawn', [205, 370, 440, 15, 11.7, 7870, 17], 'published', 21],
]

const temperOf = (material: string, temper: string) =>
  MATERIALS.find(({ id }) => id === material)!.tempers.find(({ id }) => id === temper)!

const properties: Row[] = PRINTED.flatMap(([material, name, numbers, label, exponent]) => {
  const row = temperOf(material, name)
  const { youngsModulusGpa, yieldMpa, tensileMpa, elongationPct, expansionPerK, densityKgM3, resistivityOhmM } = row
  const figures = [youngsModulusGpa, yieldMpa, tensileMpa, elongationPct, expansionPerK * 1e6, densityKgM3]
  return [
    ...[...figures, resistivityOhmM * 1e8].map((computed, column) => {
      const printed = numbers[column]!
      return { what: `${material} ${name}, column ${column + 1}`, printed, computed, within: printed * 1e-9, label }
    }),
    {
      what: `${material} ${name}, exponent`,
      printed: exponent,
      computed: row.rambergOsgoodN,
      within: exponent * 1e-9,
      label: 'derived',
    },
  ]
})

/**
 * The exponent with which 0.002·(s/yield)^n is half the elongation at the tensile strength: ln(A/2 / 0.002) over
 * ln(tensile strength / yield). Derived from the printed figures; the catalogue rounds to halves, within 3.5 %.
 */
const exponents: Row[] = PRINTED.map(([material, name, [, yieldMpa, tensileMpa, elongationPct]]) => {
  const printed = Math.log(elongationPct! / 2 / 100 / 0.002) / Math.log(tensileMpa! / yieldMpa!)
  const computed = temperOf(material, name).rambergOsgoodN
  return { what: `${material} ${name}, exponent`, printed, computed, within: 0.035 * printed, label: 'derived' }
})

/** EN 1999-1-1 table 3.2b, exponent of 6063: T5 up to 3 mm thick and beyond, T6 drawn and extruded. Published. */
const EN_1999_EXPONENTS = [
  ['6063-t5', 13, 16],
  ['6063-t6', 24, 31],
] as const

/**
 * Mass per metre of a section of ASCE proportions 8.43 mm high: area 22.7076 mm² times the density. Derived, by an
 * independent program; EN 13674-1 reckons rail the same way (area × 7.85 for steel).
 */
const ASCE_SECTION = {
  height: 8.43,
  footWidth: 8.43,
  footDepth: 0.9966572812,
  webThickness: 0.922242,
  headWidth: 4.215,
  headDepth: 2.2626813952,
}
const masses: Row[] = (
  [
    ['brass', 'half-hard', 193.7],
    ['stainless', 'annealed', 179.4],
    ['aluminium', '6061-t6', 61.3],
    ['nickel-silver', 'half-hard', 198.2],
    ['steel', 'cold-drawn', 178.7],
  ] as const
).map(([material, temper, printed]) => {
  const rail = { section: ASCE_SECTION, material, temper }
  const { massPerMetreKg } = estimateOf(planOf([straight(1000)], {}, { rail })).rail
  return { what: `${material} g/m`, printed, computed: massPerMetreKg! * 1000, within: 0.05, label: 'derived' }
})

describe('metals', () => {
  const rows = [...properties, ...masses]

  it('stand in the catalogue as printed, and rail weighs what it should', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares every temper, all 101 numbers, and a wrong one among them would show', () => {
    expect(PRINTED.map(([material, temper]) => `${material} ${temper}`).toSorted()).toEqual(
      MATERIALS.flatMap(({ id, tempers }) => tempers.map((temper) => `${id} ${temper.id}`)).toSorted(),
    )
    expect(rows).toHaveLength(101)
    expect(blindRows(rows)).toEqual([])
  })
})

describe('exponents of the Ramberg–Osgood law', () => {
  it('follow from yield, tensile strength and elongation, as their source says', () => {
    expect(misses(exponents)).toEqual([])
    expect(blindRows(exponents)).toEqual([])
    for (const { estimatedFields, rambergOsgoodSource } of MATERIALS.flatMap(({ tempers }) => tempers)) {
      expect(estimatedFields).toContain('rambergOsgoodN')
      expect(rambergOsgoodSource).toMatch(/^Estimate: .*half the elongation/)
    }
  })

  it('lie where EN 1999-1-1 has them', () => {
    for (const [temper, least, most] of EN_1999_EXPONENTS) {
      const { rambergOsgoodN, rambergOsgoodSource } = temperOf('aluminium', temper)
      expect(rambergOsgoodN).toBeGreaterThanOrEqual(least)
      expect(rambergOsgoodN).toBeLessThanOrEqual(most)
      for (const printed of [least, most]) expect(rambergOsgoodSource).toMatch(new RegExp(`\\b${printed}\\b`))
    }
  })
})
