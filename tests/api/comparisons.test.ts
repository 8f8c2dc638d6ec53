import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import type { Comparison } from '../../src/estimate/questions/compare.ts'
import { COMPARISON_ANSWER } from '../../src/estimate/questions/compare.ts'
import { ARC, appWithoutStore, asking, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/comparisons', { method: 'POST', json })

async function comparisonOf(json: unknown): Promise<Comparison> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(COMPARISON_ANSWER).parse(body)).toEqual(body)
  return body as Comparison
}

interface Request {
  readonly plan: Record<string, unknown>
  readonly materials: readonly { material: string; temper?: string; sticks?: unknown }[]
}

describe('the materials of a plan', () => {
  test('are answered in their order, each as its own estimate has it', async () => {
    const { plan, materials } = example('loop-in-three-metals') as Request
    const comparison = await comparisonOf({ plan, materials })
    for (const [index, { material, temper = 'half-hard', sticks }] of materials.entries()) {
      const supplies = { ...(plan.supplies as object), ...(sticks ? { sticks } : {}) }
      const json = { ...plan, rail: { section: '250', material, temper }, supplies }
      const answer = JSON.parse((await ask('/v1/estimates', { method: 'POST', json })).text) as Estimate
      const { forming } = answer.bends.find(({ rail }) => rail === 'inner')!
      expect(comparison.materials[index]).toMatchObject({
        material,
        temper,
        cost: answer.bill.total,
        unpricedLines: answer.bill.unpricedLines,
        railMassKg: answer.rail.massKg,
        billMassKg: answer.bill.massKg,
        sticksUsed: answer.cutting.sticksUsed,
        forming: { formingRadiusMm: forming.formingRadiusMm, overbendRatio: forming.overbendRatio },
        expansionPerMetreMm: answer.expansion!.growthPerMetreMm,
        dropV: answer.power!.blocks[0]!.farEndDropV,
      })
      const { stop, warn, note } = comparison.materials[index]!.findings
      expect(stop + warn + note).toBe(answer.findings.length)
    }
    // By hand: of the three, aluminium has the cheapest sticks, and is lightest and conducts best (3.25 of 6.16 and 72).
    expect(comparison.least).toEqual({ cost: 2, mass: 2, drop: 2 })
  })

  test('may be spelt either way, or given by their numbers', async () => {
    const own = { youngsModulusGpa: 100, yieldMpa: 300, hardening: { model: 'perfectly-plastic' } }
    const { materials } = await comparisonOf({
      plan: planWith({ rail: { section: '250', material: 'aluminium', temper: '6063-t5' } }),
      materials: [{ material: 'aluminum' }, { material: own }],
    })
    expect(materials.map(({ material, temper }) => [material, temper])).toEqual([
      ['aluminium', '6063-t5'],
      ['own', null],
    ])
  })
})

describe('what cannot be compared', () => {
  test('is refused with every fault, of the plan, of each material and between them, at its place', async () => {
    const plan = planWith({ tracks: [trackOf({ ...TANGENT, length: -1 }, { ...ARC, diameter: 40 })], chrods: [] })
    const sticks = [{ length: '5 ft' }, { length: 1524 }, { lenght: 3 }]
    const materials = [
      { material: 'bras' },
      { material: 'brass', temper: 'soft' },
      { temper: 'annealed' },
      { material: 'steel', temper: 'soft', sticks, colour: 'blue' },
      { material: 'steel', sticks: [] },
      'brass',
    ]
    expect(placesIn(await post({ plan, materials, material: 'brass' })).toSorted()).toEqual([
      '/material',
      '/materials/0/material',
      '/materials/1/temper',
      '/materials/2/material',
      '/materials/3/colour',
      '/materials/3/sticks/1/length',
      '/materials/3/sticks/2/lenght',
      '/materials/3/temper',
      '/materials/4/sticks',
      '/materials/5',
      '/plan/chrods',
      '/plan/tracks/0/elements/0/length',
      '/plan/tracks/0/elements/1/diameter',
    ])
    expect(placesIn(await post({}))).toEqual(['/plan', '/materials'])
    expect(placesIn(await post({ plan: null, materials: {} }))).toEqual(['/materials', '/plan'])
    expect(placesIn(await post([]))).toEqual([''])
    expect(placesIn(await post({ plan: planWith(), materials: [] }))).toEqual(['/materials'])
  })

  test('has too little rail', async () => {
    const steel = { material: 'steel', sticks: [{ length: '5 ft', onHand: 1, buyable: false }] }
    const { errors } = problemIn(await post({ plan: planWith(), materials: [{ material: 'brass' }, steel] }))
    expect(errors).toMatchObject([{ pointer: '/materials/1/sticks', code: 'too-little-rail' }])
  })

  test('is more than eight materials, or more in all than one plan may be', async () => {
    const brass = (count: number) => Array.from({ length: count }, () => ({ material: 'brass' }))
    const refusedFor = async (json: unknown) =>
      problemIn(await post(json)).errors.map((error) => [placeOf(error), error.code, error.detail])
    const placeOf = (error: object) => (error as { pointer?: string }).pointer
    expect(await refusedFor({ plan: {}, materials: brass(9) })).toEqual([
      ['/materials', 'too-many', '9 materials; the limit is 8'],
    ])
    const sticks = Array.from({ length: 21 }, (_, n) => ({ length: 900 + n }))
    expect(await refusedFor({ plan: planWith(), materials: [{ material: 'steel', sticks }] })).toEqual([
      ['/materials/0/sticks', 'too-many', '21 lengths; the limit is 20'],
    ])
    const elements = Array.from({ length: 1251 }, () => ({ kind: 'tangent', length: 300 }))
    expect(await refusedFor({ plan: planWith({ tracks: [trackOf(...elements)] }), materials: brass(4) })).toEqual([
      ['/materials', 'too-many', '5004 elements in all materials together; the limit is 5000'],
    ])
    // By hand: 2 · 9 km in sticks of 1524 mm are 11811.02, so 11812.
    const far = planWith({ tracks: [trackOf({ kind: 'tangent', length: '9000 m' })] })
    expect(await refusedFor({ plan: far, materials: brass(3) })).toEqual([
      ['/materials', 'too-many', '35436 sticks in all materials together; the limit is 25000'],
    ])
    expect((await post({ plan: planWith(), materials: brass(8) })).status).toBe(200)
  })
})
