import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readPlan } from '../../src/api/schemas/read-plan.ts'
import type { BendCheckInput } from '../../src/bending/bend-check/types.ts'
import type { PlanInput } from '../../src/estimate/plan.ts'
import { NOTHING } from '../../src/estimate/shed/stock.ts'
import type { CutListProblem } from '../../src/laying/cut-list.ts'
import { onTheSpot } from '../../src/search/on-the-spot.ts'
import { openSearch } from '../../src/search/open-search.ts'
import { windingPlan } from '../benchmarks/plans.ts'
import { patient } from './pools.ts'

function planOf(raw: unknown): PlanInput {
  const read = readPlan(raw)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

/** A curve somebody read badly: 12 mm give or take one, straight at its ends. */
const readings = (stations: number): BendCheckInput => ({
  chordMm: 500,
  readingsMm: Array.from({ length: stations }, (_, n) => (n < 4 || n > stations - 5 ? 0 : 12 + ((n * 7) % 5) / 2 - 1)),
})

const cuts = (runs: number, effort: 'quick' | 'thorough'): CutListProblem => ({
  runs: Array.from({ length: runs }, (_, n) => ({ lengthMm: 700 + ((n * 379) % 2000) })),
  sticks: [
    { lengthMm: 1524, priceCents: 1450, onHand: 2 },
    { lengthMm: 1828.8, priceCents: 1725, onHand: 0 },
  ],
  kerfMm: 1,
  minimumPieceMm: 150,
  joinerCents: 90,
  effort,
})

const METALS = [{ material: 'brass' }, { material: 'steel', temper: 'cold-drawn' }]

describe('long work', () => {
  const search = openSearch({ threads: 1 })
  // The threads have to start and to read the sources once.
  beforeAll(() => search.planCutList(cuts(3, 'thorough'), patient))
  afterAll(() => search.close())

  /** The answer, and whether this thread was free while it was being worked out. */
  async function aside<T>(work: () => Promise<T>): Promise<{ answer: T; free: boolean }> {
    let free = false
    setTimeout(() => {
      free = true
    }, 0)
    const answer = await work()
    return { answer, free }
  }

  test('is the same in a worker thread as on the spot', async () => {
    const plan = planOf({ ...windingPlan(12), effort: 'thorough' })
    expect(await aside(() => search.estimate({ plan, stock: NOTHING }, patient))).toStrictEqual({
      answer: await onTheSpot.estimate({ plan, stock: NOTHING }, patient),
      free: true,
    })
    const asked = { plan, choices: METALS }
    expect(await aside(() => search.compareMaterials(asked, patient))).toStrictEqual({
      answer: await onTheSpot.compareMaterials(asked, patient),
      free: true,
    })
    const few = cuts(6, 'thorough')
    expect(await aside(() => search.planCutList(few, patient))).toStrictEqual({
      answer: await onTheSpot.planCutList(few, patient),
      free: true,
    })
    const many = readings(61)
    expect(await aside(() => search.checkBend(many, patient))).toStrictEqual({
      answer: await onTheSpot.checkBend(many, patient),
      free: true,
    })
  })

  test.each<[string, () => Promise<unknown>, boolean]>([
    ['a quick plan', () => search.estimate({ plan: planOf(windingPlan(12)), stock: NOTHING }, patient), false],
    [
      'a quick plan of very many elements',
      () => search.estimate({ plan: planOf(windingPlan(504)), stock: NOTHING }, patient),
      true,
    ],
    ['a comparison', () => search.compareMaterials({ plan: planOf(windingPlan(12)), choices: METALS }, patient), false],
    [
      'a comparison of very many elements in all',
      () => search.compareMaterials({ plan: planOf(windingPlan(252)), choices: METALS }, patient),
      true,
    ],
    ['a quick cut plan', () => search.planCutList(cuts(20, 'quick'), patient), false],
    ['a quick cut plan of many runs', () => search.planCutList(cuts(21, 'quick'), patient), true],
    ['lining a short curve', () => search.checkBend(readings(20), patient), false],
    ['a bench check of any length', () => search.checkBend({ ...readings(400), radiusMm: 2600 }, patient), false],
  ])('%s leaves the event loop free or takes no time: %#', async (_, work, free) => {
    expect((await aside(work)).free).toBe(free)
  })
})
