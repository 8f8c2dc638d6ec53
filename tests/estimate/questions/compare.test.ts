import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import { type Comparison, choiceFaults, compareMaterials } from '../../../src/estimate/questions/compare.ts'
import type { PlanInput } from '../../../src/plan/rows/plan.ts'
import type { MaterialChoice } from '../../../src/plan/rows/questions.ts'
import type { StickInput } from '../../../src/plan/rows/supplies.ts'
import { arc, BRASS_250, estimateOf, planOf, straight } from '../plans.ts'

function comparisonOf(plan: PlanInput, ...choices: MaterialChoice[]): Comparison {
  expect([...planFaults(plan), ...choiceFaults(plan, choices)]).toEqual([])
  const result = compareMaterials({ plan, choices })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.comparison
}

const only = (plan: PlanInput, choice: MaterialChoice) => comparisonOf(plan, choice).materials[0]!
const stick = (lengthMm: number, price?: string, more: Partial<StickInput> = {}): StickInput => ({
  length: lengthMm,
  price,
  ...more,
})

/** By hand: 6·1 + 1·4 + 3·2 = 16 mm². */
const SECTION = {
  rectangles: [
    { width: 6, height: 1 },
    { width: 1, height: 4 },
    { width: 3, height: 2 },
  ],
}
const BRASS = { section: SECTION, material: 'brass', temper: 'half-hard' }
const OTHERS = {
  joiners: { packSize: 10, pricePerPack: '9.00' },
  ties: { packSize: 100, pricePerPack: '21.00' },
  fasteners: { packSize: 500, pricePerPack: '12.00' },
}
const LINE = planOf(
  [straight(9000)],
  {},
  { rail: BRASS, supplies: { ...OTHERS, sticks: [stick(1500, '10.00')] }, power: { currentA: 3 } },
)
const ALUMINIUM = { material: 'aluminium', temper: '6063-t6', sticks: [stick(3000, '15.00')] }

describe('a line in two metals', () => {
  test('costs, weighs and drops what it does by hand', () => {
    const { currency, materials, least } = comparisonOf(LINE, { material: 'brass' }, ALUMINIUM)
    expect(currency).toBe('USD')
    // By hand: 201 ties (63.00), 804 fasteners (24.00), joiners (9.00); 12 sticks at 10.00, or 6 at 15.00.
    expect(materials.map(({ material, temper, cost, sticksUsed }) => [material, temper, cost, sticksUsed])).toEqual([
      ['brass', 'half-hard', '216.00', 12],
      ['aluminium', '6063-t6', '186.00', 6],
    ])
    // By hand: 16 mm² · 18 m of 8530 and of 2700 kg/m³.
    expect(materials[0]!.railMassKg).toBeCloseTo(2.45664, 9)
    expect(materials[1]!.railMassKg).toBeCloseTo(0.7776, 9)
    // By hand: 3 A · 18 m · ρ/16 mm², ρ = 6.16e-8 and 3.25e-8 Ω·m.
    expect(materials[0]!.dropV).toBeCloseTo(0.2079, 9)
    expect(materials[1]!.dropV).toBeCloseTo(0.1096875, 9)
    expect(materials.map(({ forming, expansionPerMetreMm }) => [forming, expansionPerMetreMm])).toEqual([
      [null, null],
      [null, null],
    ])
    expect(least).toEqual({ cost: 1, mass: 1, drop: 1 })
  })

  test('grows with the weather, and has its findings counted', () => {
    const climate = { laying: 15, coldest: -10, hottest: 40, sunAllowance: 20 }
    const [brass, aluminium] = comparisonOf({ ...LINE, climate }, { material: 'brass' }, ALUMINIUM).materials
    // By hand: from −10 to 60 °C, 20 and 23.4 millionths per kelvin.
    expect(brass!.expansionPerMetreMm).toBeCloseTo(1.4, 9)
    expect(aluminium!.expansionPerMetreMm).toBeCloseTo(1.638, 9)
    // By hand: 1.5 m · 1.4 is within the 2.5 mm a joiner takes, 3 m · 1.638 is not.
    expect(brass!.findings).toEqual({ stop: 0, warn: 0, note: 0, rules: [] })
    expect(aluminium!.findings).toEqual({ stop: 0, warn: 1, note: 0, rules: ['gap-too-wide'] })
  })

  test('whose density or resistivity nobody knows has no such figure and is not the least', () => {
    const own = { youngsModulusGpa: 100, yieldMpa: 300, hardening: { model: 'perfectly-plastic' as const } }
    const { materials, least } = comparisonOf(LINE, { material: own, sticks: [stick(1500, '1.00')] }, ALUMINIUM)
    expect(materials[0]).toMatchObject({ material: 'own', temper: null, railMassKg: null, dropV: null })
    expect(materials[0]!.findings.rules).toEqual(['resistivity-unknown'])
    expect(least).toEqual({ cost: 0, mass: 1, drop: 1 })
  })

  test('of equals the first is the least', () => {
    const { least } = comparisonOf(LINE, ALUMINIUM, ALUMINIUM)
    expect(least).toEqual({ cost: 0, mass: 0, drop: 0 })
  })
})

describe('the sharpest bend', () => {
  const plan = planOf([arc(3000, 40), straight(500), arc(1800, 30, 'right'), straight(500), arc(2400, 20)])

  test('is the inner rail of the sharpest arc, formed as the estimate of that metal says', () => {
    const rail = { ...BRASS_250, material: 'stainless', temper: 'quarter-hard' }
    const bend = estimateOf({ ...plan, rail }).bends.find(({ element, rail }) => element === 2 && rail === 'inner')!
    const { forming } = only(plan, { material: 'stainless', temper: 'quarter-hard' })
    const { formingRadiusMm, band, overbendRatio, method, reason } = bend.forming
    // By hand: 1800 − (45 + 2.8448)/2, the head 0.112 in wide.
    expect(forming!.radiusMm).toBeCloseTo(1776.0776, 9)
    expect(forming).toMatchObject({ track: 'main', element: 2, rail: 'inner' })
    expect(forming).toMatchObject({ formingRadiusMm, band, overbendRatio, method, reason })
  })

  test('of an unknown temper has a band and no single figure', () => {
    const { forming } = only(plan, { material: 'stainless' })
    expect(forming).toMatchObject({ formingRadiusMm: null, overbendRatio: null })
    expect(forming!.band.lowMm).toBeLessThan(forming!.band.highMm)
  })
})

describe('the plan’s own rail', () => {
  const rail = { ...BRASS_250, calibration: [{ formedRadius: 700, restingRadius: 2400 }] }
  const plan = planOf(
    [straight(2000), arc(2400, 60)],
    {},
    {
      rail,
      supplies: { sticks: [stick(1500, '10.00', { onHand: 2 }), stick(900, undefined, { buyable: false, onHand: 1 })] },
    },
  )

  test.each([{}, { temper: 'half-hard' }])(
    'named by its metal keeps its temper, test bends, prices and stock: %o',
    (more) => {
      const { bill, bends, cutting, rail: summary } = estimateOf(plan)
      const compared = only(plan, { material: 'brass', ...more })
      expect(compared).toMatchObject({ temper: 'half-hard', total: bill.total, railMassKg: summary.massKg })
      expect(compared.sticksUsed).toBe(cutting.sticksUsed)
      expect(bends[1]!.forming.basis).toBe('calibrated')
      expect(compared.forming!.formingRadiusMm).toBe(bends[1]!.forming.formingRadiusMm)
    },
  )

  test('in another temper keeps prices and stock, and its test bends do not hold', () => {
    const compared = comparisonOf(plan, { material: 'brass', temper: 'annealed' })
    const { bill, bends } = estimateOf({ ...plan, rail: { ...BRASS_250, temper: 'annealed' } })
    expect(compared.materials[0]).toMatchObject({ temper: 'annealed', total: bill.total })
    expect(compared.materials[0]!.forming!.formingRadiusMm).toBe(bends[1]!.forming.formingRadiusMm)
    expect(compared.assumptions).toContainEqual(
      expect.objectContaining({ field: '/materials/0', value: 'no test bends' }),
    )
  })

  test('in another metal without sticks leaves the lengths on sale, unpriced, none on hand', () => {
    const { materials, assumptions, least } = comparisonOf(plan, { material: 'steel' })
    // By hand: 4538 and 4488 mm of rail, four sticks and three.
    expect(materials[0]).toMatchObject({
      cost: null,
      sticksUsed: 7,
      unpriced: [expect.stringContaining('1500 mm'), 'Rail joiner', 'Tie', 'Fastener'],
    })
    expect(least.cost).toBeNull()
    expect(assumptions).toContainEqual(
      expect.objectContaining({ field: '/materials/0/sticks', value: '1500 mm; none on hand, unpriced' }),
    )
    expect(assumptions).toContainEqual(expect.objectContaining({ field: '/materials/0/temper', value: 'unknown' }))
  })

  test('of which nothing is on sale leaves another metal the usual stick', () => {
    const supplies = { sticks: [stick(1000, undefined, { buyable: false, onHand: 99 })] }
    const { materials, assumptions } = comparisonOf({ ...plan, supplies }, { material: 'steel' })
    expect(materials[0]!.unpriced[0]).toContain('1524 mm')
    expect(assumptions).toContainEqual(
      expect.objectContaining({ field: '/materials/0/sticks', reason: 'no sticks given' }),
    )
  })
})

test('of lifted track another metal gets joiners and ties, no rail', () => {
  const tracks = [
    { name: 'old', state: 'lifted' as const, elements: [straight(3000)] },
    { name: 'new', start: { x: 0, y: 500 }, elements: [straight(3000)] },
  ]
  const plan: PlanInput = { ...LINE, tracks }
  const steel = { material: 'steel', temper: 'cold-drawn', sticks: [stick(1500, '10.00')] }
  const { materials, assumptions } = comparisonOf(plan, { material: 'brass' }, steel)
  // By hand: 4 sticks, 2 joiners and 67 ties come up; 268 fasteners (12.00) are new, and 4 sticks of steel.
  expect(materials.map(({ cost }) => cost)).toEqual(['12.00', '52.00'])
  expect(comparisonOf(plan, steel).assumptions.map(({ field }) => field)).toContain('/plan/tracks/1/start/elevation')
  expect(assumptions).toContainEqual(
    expect.objectContaining({ field: '/materials/1', value: 'only joiners and ties of lifted track are on hand' }),
  )
})

describe('what is assumed', () => {
  test('of the plan is said once, of a material at its place', () => {
    const { assumptions } = comparisonOf(LINE, { material: 'brass' }, { material: 'stainless' }, { material: 'steel' })
    const fields = assumptions.map(({ field }) => field)
    expect(fields.filter((field) => field === '/plan/gauge')).toHaveLength(1)
    expect(fields).not.toContain('/plan/power')
    expect(assumptions.filter(({ field }) => field === '/materials/1/temper')).toMatchObject([
      { value: 'unknown' },
      { value: 'rail of 0.72 Ω·mm²/m' },
    ])
    expect(fields.some((field) => field.startsWith('/materials/0'))).toBe(false)
  })
})

describe('what cannot be compared', () => {
  const noneToBuy = [stick(1500, undefined, { buyable: false, onHand: 1 })]

  test('is told with its place: too few sticks of the material, or of the plan', () => {
    const short: PlanInput = { ...LINE, supplies: { sticks: noneToBuy } }
    const placesOf = (plan: PlanInput, ...choices: MaterialChoice[]) => {
      const result = compareMaterials({ plan, choices })
      return result.ok ? [] : result.faults.map(({ code, path }) => `${code} ${path.join('/')}`)
    }
    expect(placesOf(LINE, ALUMINIUM, { material: 'steel', sticks: noneToBuy })).toEqual([
      'too-little-rail materials/1/sticks',
    ])
    expect(placesOf(short, { material: 'brass' }, { material: 'brass' }, ALUMINIUM)).toEqual([
      'too-little-rail plan/supplies/sticks',
    ])
  })

  test('contradicts itself or the plan; what is wrong with the plan alone is not said again', () => {
    const plan: PlanInput = {
      ...LINE,
      rail: { ...BRASS, temper: 'soft' },
      supplies: { sticks: [stick(1500), stick(1500)], minimumPiece: 300 },
    }
    expect(planFaults(plan)).toHaveLength(2)
    const faults = choiceFaults(plan, [
      { material: 'brass' },
      null,
      { material: 'brass', temper: 'soft' },
      { material: 'steel', sticks: [stick(200)] },
      { material: 'steel', sticks: [stick(900), stick(900)] },
      { material: 'steel', sticks: [stick(900, undefined, { buyable: false })] },
    ])
    expect(faults.map(({ code, path }) => `${code} ${path.join('/')}`)).toEqual([
      'unknown-temper materials/2/temper',
      'contradictory materials/3/sticks',
      'duplicate-length materials/4/sticks/1/length',
      'no-rail materials/5/sticks',
    ])
  })
})

test('each material is as it is alone, in whatever order; least is the least', () => {
  const choices: MaterialChoice[] = [
    { material: 'brass' },
    { material: 'brass', temper: 'annealed' },
    { material: 'stainless', temper: 'annealed', sticks: [stick(1800, '21.00'), stick(1200, '15.00')] },
    ALUMINIUM,
    { material: 'steel', sticks: [stick(1000, '4.00')] },
  ]
  const plans = fc.record({
    straightMm: fc.integer({ min: 200, max: 12_000 }),
    radiusMm: fc.integer({ min: 1200, max: 9000 }),
    angleDeg: fc.integer({ min: 3, max: 200 }),
    powered: fc.boolean(),
  })
  fc.assert(
    fc.property(
      plans,
      fc.shuffledSubarray(choices, { minLength: 1 }),
      ({ straightMm, radiusMm, angleDeg, powered }, some) => {
        const elements = [straight(straightMm), arc(radiusMm, angleDeg, 'right')]
        const plan: PlanInput = {
          ...LINE,
          tracks: [{ name: 'a', elements }],
          power: powered ? { currentA: 2 } : 'none',
        }
        const { materials, least } = comparisonOf(plan, ...some)
        expect(materials).toEqual(some.map((choice) => only(plan, choice)))
        const costs = materials.map(({ cost }) => Number(cost))
        expect(costs[least.cost!]).toBe(Math.min(...costs))
        const drops = materials.map(({ dropV }) => dropV!)
        if (powered) expect(drops[least.drop!]).toBe(Math.min(...drops))
        else expect(least.drop).toBeNull()
      },
    ),
    { numRuns: 60 },
  )
})
