import { describe, expect, it } from 'vitest'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { growthMm, heldStressMpa } from '../../src/laying/expansion.ts'
import { MM_PER_FOOT, MM_PER_INCH } from '../../src/measure/length.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { estimateOf, planOf, straight } from '../estimate/plans.ts'
import { blindRows, misses, type Row } from './rows.ts'

const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9
const perKelvin = (perFahrenheit: number) => perFahrenheit * 1.8

/** Steel by its numbers, with an expansion of one's own. */
const steel = (expansionPerK: number) => ({
  youngsModulusGpa: 200,
  yieldMpa: 370,
  hardening: { model: 'perfectly-plastic' } as const,
  expansionPerK,
})

/** Five whole rails end to end with the gaps between them; the joint in the middle lies between two of them. */
function middleGapMm(railMm: number, expansionPerK: number, weather: { laying: number; hottest: number }): number {
  const plan: Partial<PlanInput> = {
    rail: { section: '250', material: steel(expansionPerK) },
    climate: { ...weather, coldest: -40, sunAllowance: 0 },
    supplies: { sticks: [{ length: railMm }], kerf: 0 },
  }
  const gapMm = growthMm(expansionPerK, railMm, weather.hottest - weather.laying)
  const { joints } = estimateOf(planOf([straight(5 * railMm + 4 * gapMm)], {}, plan))
  const ofLeft = joints.filter(({ rail }) => rail === 'left')
  expect(ofLeft).toHaveLength(4)
  return ofLeft[1]!.gapMm!
}

/**
 * TI 850-02 / AFMAN 32-1125 (2000), table 9-2, rails of 39 ft: the gap in sixteenths of an inch between these rail
 * temperatures, °F. A gap there is good to half a step, 1/32 in. The steps of 1/16 in every 20 °F are an expansion of
 * 6.67e-6 per °F, and half a step beyond the last one the rails touch, at 95.5 °F (both derived).
 */
const TABLE_9_2: [fromF: number, toF: number, sixteenths: number][] = [
  [6, 25, 4],
  [26, 45, 3],
  [46, 65, 2],
  [66, 85, 1],
]
const tableRows: Row[] = TABLE_9_2.flatMap(([fromF, toF, sixteenths]) =>
  [fromF, (fromF + toF) / 2, toF].map(
    (layingF): Row => ({
      what: `39 ft laid at ${layingF} °F`,
      printed: sixteenths / 16,
      computed:
        middleGapMm(39 * MM_PER_FOOT, perKelvin(6.67e-6), { laying: celsius(layingF), hottest: celsius(95.5) }) /
        MM_PER_INCH,
      within: 1 / 32,
      label: 'published',
    }),
  ),
)

/** Singer and Pytel, Strength of Materials, problem 261: 10 m rails, 3 mm clearance at 15 °C, 11.7e-6 per K. */
const TOUCH_C = 40.64
const singerPytel: Row[] = [
  {
    what: 'clearance that closes at 40.64 °C, mm',
    printed: 3,
    computed: middleGapMm(10_000, 11.7e-6, { laying: 15, hottest: TOUCH_C }),
    within: 0.0006,
    label: 'published',
  },
  {
    what: 'stress at that temperature without clearance, E 200 GPa, MPa',
    printed: 60,
    computed: heldStressMpa(200_000, 11.7e-6, TOUCH_C - 15),
    within: 0.05,
    label: 'from memory',
  },
]

/** α·L·ΔT: 39 ft of steel at 6.5e-6 per °F over 100 °F; a metre of each metal over 40 K. */
const PER_METRE_40_K: [material: string, temper: string, mm: number][] = [
  ['brass', 'half-hard', 0.8],
  ['stainless', 'annealed', 0.692],
  ['aluminium', '6063-t6', 0.936],
  ['nickel-silver', 'half-hard', 0.648],
  ['steel', 'cold-drawn', 0.468],
]
const growth: Row[] = [
  {
    what: '39 ft over 100 °F, in',
    printed: 0.3042,
    computed: growthMm(perKelvin(6.5e-6), 39 * MM_PER_FOOT, 100 / 1.8) / MM_PER_INCH,
    within: 0.00005,
    label: 'derived',
  },
  ...PER_METRE_40_K.map(([material, temper, printed]): Row => {
    const plan = {
      rail: { section: '250', material, temper },
      climate: { laying: 20, coldest: 0, hottest: 20, sunAllowance: 20 },
    }
    const { expansion } = estimateOf(planOf([straight(1000)], {}, plan))
    return {
      what: `a metre of ${material} over 40 K`,
      printed,
      computed: expansion!.growthPerMetreMm!,
      within: 0.0005,
      label: 'derived',
    }
  }),
]

describe('expansion', () => {
  const rows = [...tableRows, ...singerPytel, ...growth]

  it('agrees with the table of joint gaps, with the problem and with the figures of the metals', () => {
    expect(misses(rows)).toEqual([])
  })

  it('beyond either end of the table there is no gap, or the widest', () => {
    const at = (layingF: number) =>
      middleGapMm(39 * MM_PER_FOOT, perKelvin(6.67e-6), { laying: celsius(layingF), hottest: celsius(95.5) })
    expect(at(96)).toBe(0)
    expect(at(5) / MM_PER_INCH).toBeGreaterThan(5 / 16 - 1 / 32)
  })

  it('compares all 20 numbers, and a wrong one would show', () => {
    expect(rows).toHaveLength(20)
    expect(blindRows(rows)).toEqual([])
  })

  it('the metals of the catalogue all have an expansion', () => {
    const tempers = MATERIALS.flatMap((material) => material.tempers)
    expect(tempers.length).toBeGreaterThan(10)
    expect(tempers.filter(({ expansionPerK }) => !(expansionPerK > 1e-6 && expansionPerK < 1e-4))).toEqual([])
  })
})
