import { describe, expect, it } from 'vitest'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { estimateOf, planOf, straight } from '../estimate/plans.ts'
import { blindRows, type Label, misses, type Row } from './rows.ts'

/**
 * Typical properties at 20 °C: modulus GPa, yield MPa, tensile strength MPa, elongation %, density kg/m³. Brass: Copper
 * Development Association, cold-rolled table 2, ASTM B36 and B16, CDA alloy 385. Stainless: AISI type 304, ASTM A666.
 * Aluminium: Aluminum Association, typical. Steel: SAE J1397. Rows seen in those sources are published.
 */
const PRINTED: [material: string, temper: string, numbers: number[], label: Label][] = [
  ['brass', 'half-hard', [110.3, 345, 427, 23, 8530], 'published'],
  ['brass', 'annealed', [110.3, 110, 338, 57, 8530], 'from memory'],
  ['brass', 'free-cutting-half-hard', [96.5, 310, 400, 25, 8500], 'published'],
  ['brass', 'extruded', [96.5, 138, 414, 30, 8470], 'published'],
  ['stainless', 'annealed', [193, 290, 579, 55, 7900], 'from memory'],
  ['stainless', 'quarter-hard', [193, 517, 862, 10, 7900], 'published'],
  ['aluminium', '6061-t6', [68.9, 276, 310, 12, 2700], 'published'],
  ['aluminium', '6063-t5', [68.9, 145, 186, 12, 2700], 'published'],
  ['aluminium', '6063-t6', [68.9, 214, 241, 12, 2700], 'published'],
  ['nickel-silver', 'half-hard', [124, 427, 510, 8, 8730], 'from memory'],
  ['steel', 'cold-drawn', [205, 370, 440, 15, 7870], 'published'],
]

const temperOf = (material: string, temper: string) =>
  MATERIALS.find(({ id }) => id === material)!.tempers.find(({ id }) => id === temper)!

const properties: Row[] = PRINTED.flatMap(([material, name, numbers, label]) => {
  const { youngsModulusGpa, yieldMpa, tensileMpa, elongationPct, densityKgM3 } = temperOf(material, name)
  return [youngsModulusGpa, yieldMpa, tensileMpa, elongationPct, densityKgM3].map((computed, column) => {
    const printed = numbers[column]!
    return { what: `${material} ${name}, column ${column + 1}`, printed, computed, within: printed * 1e-9, label }
  })
})

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

  it('compares all 60 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(60)
    expect(blindRows(rows)).toEqual([])
  })
})
