import { expect, it } from 'vitest'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { ohmsPerMetre } from '../../src/laying/wire.ts'
import { blindRows, misses, type Row } from './rows.ts'

/** A rail of ASCE proportions, 8.43 mm high; area 22.7076 mm². */
const { areaMm2 } = sectionProperties([
  { widthMm: 8.43, heightMm: 0.9967 },
  { widthMm: 0.9222, heightMm: 5.1707 },
  { widthMm: 4.215, heightMm: 2.2627 },
])

/** Derived from the resistivities of the metals' tables (see metals.test.ts) by an independent program, mΩ/m. */
const TABLE = [
  ['brass', 'half-hard', 2.713, 0.001],
  ['stainless', 'annealed', 31.71, 0.01],
  ['aluminium', '6061-t6', 1.757, 0.001],
  ['aluminium', '6063-t5', 1.392, 0.001],
  ['nickel-silver', 'half-hard', 12.64, 0.01],
  ['steel', 'cold-drawn', 7.487, 0.001],
] as const

const rows: Row[] = TABLE.map(([material, temper, printed, within]) => {
  const { resistivityOhmM } = MATERIALS.find(({ id }) => id === material)!.tempers.find(({ id }) => id === temper)!
  return {
    what: `${material} ${temper}`,
    printed,
    computed: ohmsPerMetre(resistivityOhmM, areaMm2) * 1000,
    within,
    label: 'derived',
  }
})

it('rail as a conductor: ohms a metre agree', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(6)
  expect(blindRows(rows)).toEqual([])
})
