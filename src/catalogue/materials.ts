import type { Material, Temper } from './types.ts'

/** Checked in tests/published/metals.test.ts. */
const N_ESTIMATED = 'Estimate: the law passes through the tensile strength at a strain of half the elongation'

const ALL_FIGURES = [
  'youngsModulusGpa',
  'yieldMpa',
  'tensileMpa',
  'elongationPct',
  'expansionPerK',
  'densityKgM3',
  'resistivityOhmM',
] as const

const TEMPERS = {
  brass: [
    temper('half-hard', 'C26000 half hard (H02)', 110.3, 345, 427, 23, 19, 20.0, 8530, 6.16, {
      source: 'Copper Development Association, cold-rolled table 2; ASTM B36',
    }),
    temper('annealed', 'C26000 annealed (OS035)', 110.3, 110, 338, 57, 4.5, 20.0, 8530, 6.16, {
      source: 'Copper Development Association, from memory',
      estimatedFields: ALL_FIGURES,
    }),
    temper('free-cutting-half-hard', 'C36000 half hard', 96.5, 310, 400, 25, 16.5, 20.5, 8500, 6.63, {
      source: 'ASTM B16; Copper Development Association',
    }),
    temper('extruded', 'C38500 as extruded', 96.5, 138, 414, 30, 4, 20.9, 8470, 6.16, {
      source: 'Copper Development Association, alloy 385 (modulus from memory)',
      estimatedFields: ['youngsModulusGpa'],
    }),
  ],
  stainless: [
    temper('annealed', '304 annealed', 193, 290, 579, 55, 7, 17.3, 7900, 72, {
      source: 'AISI type 304; EN 10088-1 (yield, tensile strength and elongation from memory; minimum yield 205)',
      estimatedFields: ['yieldMpa', 'tensileMpa', 'elongationPct'],
    }),
    temper('quarter-hard', '304 quarter hard', 193, 517, 862, 10, 6.5, 17.3, 7900, 72, {
      source: 'ASTM A666, minima (elongation from memory)',
      estimatedFields: ['elongationPct'],
    }),
    temper('316-annealed', '316 annealed', 193, 290, 579, 50, 7, 16.0, 8000, 74, {
      source: 'EN 10088-1; AISI type 316 (modulus, yield and elongation from memory)',
      estimatedFields: ['youngsModulusGpa', 'yieldMpa', 'elongationPct'],
    }),
  ],
  aluminium: [
    temper('6063-t6', '6063-T6', 68.9, 214, 241, 12, 28, 23.4, 2700, 3.25, {
      source: 'Aluminum Association, typical; EN 1999-1-1',
      rambergOsgoodSource: `${N_ESTIMATED}; EN 1999-1-1 table 3.2b has 24 extruded, 31 drawn`,
    }),
    temper('6063-t5', '6063-T5', 68.9, 145, 186, 12, 13.5, 23.4, 2700, 3.16, {
      source: 'Aluminum Association, typical; EN 1999-1-1',
      rambergOsgoodSource: `${N_ESTIMATED}; EN 1999-1-1 table 3.2b has 16 up to 3 mm thick, 13 beyond`,
    }),
    temper('6061-t6', '6061-T6', 68.9, 276, 310, 12, 29.5, 23.6, 2700, 3.99, {
      source: 'Aluminum Association, typical',
      rambergOsgoodSource: `${N_ESTIMATED}; EN 1999-1-1 table 3.2b has 55, with its minimum strengths`,
    }),
  ],
  'nickel-silver': [
    temper('half-hard', 'C75200 half hard', 124, 427, 510, 8, 17, 16.2, 8730, 28.7, {
      source: 'from memory',
      estimatedFields: ALL_FIGURES,
    }),
  ],
  steel: [temper('cold-drawn', '1018 cold drawn', 205, 370, 440, 15, 21, 11.7, 7870, 17.0, { source: 'SAE J1397' })],
} as const satisfies Record<string, readonly Temper[]>

/** Rail metals with the tempers rail is drawn or extruded in; typical values at 20 °C. */
export const MATERIALS: readonly Material[] = [
  material('brass', 'Brass', TEMPERS.brass, 'half-hard'),
  material('stainless', 'Stainless steel', TEMPERS.stainless, 'annealed'),
  material('aluminium', 'Aluminium', TEMPERS.aluminium, '6063-t6'),
  material('nickel-silver', 'Nickel silver', TEMPERS['nickel-silver'], 'half-hard'),
  material('steel', 'Steel', TEMPERS.steel, 'cold-drawn'),
]

/** Another spelling of a material's id that is accepted and answered as the id. */
export const MATERIAL_SPELLINGS: Readonly<Record<string, string>> = { aluminum: 'aluminium' }

function material(id: string, name: string, tempers: readonly Temper[], usualTemper: string): Material {
  return {
    id,
    name,
    tempers,
    usualTemper,
    source: `${tempers.length} temper${tempers.length === 1 ? '' : 's'}, each with its own source`,
    estimated: tempers.every((row) => row.estimated),
  }
}

/** One row in the units such tables are printed in: GPa, MPa, %, 1e-6/K, kg/m³, 1e-8 Ω·m. */
function temper(
  id: string,
  name: string,
  youngsModulusGpa: number,
  yieldMpa: number,
  tensileMpa: number,
  elongationPct: number,
  rambergOsgoodN: number,
  expansionMicroPerK: number,
  densityKgM3: number,
  resistivityNanoOhmM10: number,
  {
    source,
    rambergOsgoodSource = N_ESTIMATED,
    estimatedFields = [],
  }: {
    source: string
    rambergOsgoodSource?: string
    estimatedFields?: readonly (typeof ALL_FIGURES)[number][]
  },
): Temper {
  return {
    id,
    name,
    youngsModulusGpa,
    yieldMpa,
    tensileMpa,
    elongationPct,
    rambergOsgoodN,
    expansionPerK: expansionMicroPerK * 1e-6,
    densityKgM3,
    resistivityOhmM: resistivityNanoOhmM10 * 1e-8,
    source,
    rambergOsgoodSource,
    estimated: estimatedFields.length === ALL_FIGURES.length,
    estimatedFields: [...estimatedFields, 'rambergOsgoodN'],
  }
}
