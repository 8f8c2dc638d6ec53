import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { BendCheckInput } from '../../src/bending/bend-check/types.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { CutListProblem } from '../../src/laying/cutting/cut-list.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { openWorkers } from '../../src/workers/open-workers.ts'
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
  const workers = openWorkers({ threads: 1 })
  // The threads have to start and to read the sources once.
  beforeAll(() => workers.planCutList(cuts(3, 'thorough'), patient))
  afterAll(() => workers.close())

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
    expect(await aside(() => workers.estimate({ plan, stock: NOTHING }, patient))).toStrictEqual({
      answer: await inThisThread.estimate({ plan, stock: NOTHING }, patient),
      free: true,
    })
    const asked = { plan, choices: METALS }
    expect(await aside(() => workers.compareMaterials(asked, patient))).toStrictEqual({
      answer: await inThisThread.compareMaterials(asked, patient),
      free: true,
    })
    const few = cuts(6, 'thorough')
    expect(await aside(() => workers.planCutList(few, patient))).toStrictEqual({
      answer: await inThisThread.planCutList(few, patient),
      free: true,
    })
    const many = readings(61)
    expect(await aside(() => workers.checkBend(many, patient))).toStrictEqual({
      answer: await inThisThread.checkBend(many, patient),
      free: true,
    })
  })

  test.each<[string, () => Promise<unknown>, boolean]>([
    ['a quick plan', () => workers.estimate({ plan: planOf(windingPlan(12)), stock: NOTHING }, patient), false],
    [
      'a quick plan of very many elements',
      () => workers.estimate({ plan: planOf(windingPlan(504)), stock: NOTHING }, patient),
      true,
    ],
    [
      'a comparison',
      () => workers.compareMaterials({ plan: planOf(windingPlan(12)), choices: METALS }, patient),
      false,
    ],
    [
      'a comparison of very many elements in all',
      () => workers.compareMaterials({ plan: planOf(windingPlan(252)), choices: METALS }, patient),
      true,
    ],
    ['a quick cut plan', () => workers.planCutList(cuts(20, 'quick'), patient), false],
    ['a quick cut plan of many runs', () => workers.planCutList(cuts(21, 'quick'), patient), true],
    ['lining a short curve', () => workers.checkBend(readings(20), patient), false],
    ['a bench check of any length', () => workers.checkBend({ ...readings(400), radiusMm: 2600 }, patient), false],
  ])('%s leaves the event loop free or takes no time: %#', async (_, work, free) => {
    expect((await aside(work)).free).toBe(free)
  })
})
