import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutListProblem, planCutList } from '../../src/laying/cut-list.ts'
import { breachesOfCutList } from './cutting/checker.ts'

const FOOT = 304.8
const SIX_FEET = { lengthMm: 6 * FOOT, priceCents: 1725, onHand: 0 }

function planned(problem: Partial<CutListProblem> & Pick<CutListProblem, 'runs'>) {
  const whole: CutListProblem = {
    sticks: [SIX_FEET],
    kerfMm: 1,
    minimumPieceMm: 150,
    joinerCents: 90,
    effort: 'quick',
    ...problem,
  }
  const result = planCutList(whole)
  if (!result.ok) throw new Error(`${result.missingMm} mm missing`)
  const money = (cents: number) => (cents / 100).toFixed(2)
  const { plan } = result
  const breaches = breachesOfCutList(
    {
      runs: whole.runs.map(({ lengthMm }) => ({ length: lengthMm })),
      sticks: whole.sticks.map(({ lengthMm, priceCents, onHand }) => ({
        length: lengthMm,
        price: money(priceCents),
        onHand,
      })),
      kerf: whole.kerfMm,
      minimumPiece: whole.minimumPieceMm,
      joinerPrice: money(whole.joinerCents),
    },
    { ...plan, cost: money(plan.costCents), costLowerBound: money(plan.costLowerBoundCents) },
  )
  expect(breaches).toEqual([])
  return plan
}

describe('counting sticks (by hand)', () => {
  const summed = Array.from({ length: 72 }, () => FOOT).reduce((sum, mm) => sum + mm, 0)

  it.each([
    ['twelve lengths of 6 ft make 72 ft', 72 * FOOT, 12],
    ['however it was summed', summed, 12],
    ['a thousandth of a millimetre short', 72 * FOOT - 1e-3, 12],
    ['a thousandth of a millimetre more', 72 * FOOT + 1e-3, 13],
  ])('%s', (_, lengthMm, sticks) => {
    const plan = planned({ runs: [{ lengthMm }] })
    expect(plan.sticks).toHaveLength(sticks)
    expect(plan.joints).toBe(sticks - 1)
    expect(plan.sticksLowerBound).toBe(sticks)
    expect(plan.provenOptimal).toBe(true)
  })

  it('two runs of 3 ft from one stick only where the saw takes nothing', () => {
    const runs = [{ lengthMm: 3 * FOOT }, { lengthMm: 3 * FOOT }]
    expect(planned({ runs, kerfMm: 0 }).sticks).toHaveLength(1)
    expect(planned({ runs, kerfMm: 1 }).sticks).toHaveLength(2)
  })
})

const problem = fc.record({
  runs: fc.array(fc.record({ lengthMm: fc.integer({ min: 1000, max: 60_000 }).map((tenths) => tenths / 10) }), {
    minLength: 1,
    maxLength: 12,
  }),
  sticks: fc.tuple(
    fc.record({
      lengthMm: fc.constantFrom(914.4, 1524),
      priceCents: fc.integer({ min: 4, max: 80 }).map((quarters) => 25 * quarters),
      onHand: fc.integer({ min: 0, max: 4 }),
    }),
    fc.record({
      lengthMm: fc.constantFrom(1828.8, 2438.4),
      priceCents: fc.integer({ min: 4, max: 120 }).map((quarters) => 25 * quarters),
      onHand: fc.integer({ min: 0, max: 2 }),
    }),
  ),
  kerfMm: fc.constantFrom(0, 1, 1.5),
  minimumPieceMm: fc.constantFrom(50, 100, 150),
  joinerCents: fc.constantFrom(0, 25, 90, 300),
})

describe('cut lists', () => {
  it('are sound, whatever is asked', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(problem, (asked) => {
        planned(asked)
      }),
      { seed: 4901, numRuns: 2000 },
    )
  })

  it('are the same to the last byte when they are asked again', () => {
    fc.assert(
      fc.property(problem, (asked) => {
        expect(JSON.stringify(planned(asked))).toBe(JSON.stringify(planned(asked)))
      }),
      { seed: 4902, numRuns: 100 },
    )
  })
})
