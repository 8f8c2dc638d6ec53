import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutListProblem, planCutList } from '../../../src/laying/cutting/cut-list.ts'
import { cases } from '../../cases.ts'
import { breachesOfCutList } from './checker.ts'

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

describe('the minimum piece (by hand)', () => {
  const [short, long] = [
    { lengthMm: 900, priceCents: 175, onHand: 0 },
    { lengthMm: 1800, priceCents: 775, onHand: 0 },
  ]

  it('912 mm are no two pieces of 500 mm: a long stick, although two short ones cost less', () => {
    const plan = planned({ runs: [{ lengthMm: 912 }], sticks: [short, long], minimumPieceMm: 500 })
    expect(plan).toMatchObject({ costCents: 775, costLowerBoundCents: 775, provenOptimal: true, joints: 0 })
  })

  it('where there is no long stick it is cut as it can be, and nothing is proven', () => {
    const runs = [{ lengthMm: 912 }]
    const result = planCutList({
      runs,
      sticks: [short],
      kerfMm: 1,
      minimumPieceMm: 500,
      joinerCents: 90,
      effort: 'quick',
    })
    // Of two short sticks with a joiner, whatever the pieces are.
    expect(result).toMatchObject({ ok: true, plan: { costCents: 440, costLowerBoundCents: 440, provenOptimal: false } })
  })

  it.each(['quick', 'thorough'] as const)('pieces go round in a circle where that is cheapest, %s', (effort) => {
    // One of 700 whole. The other as 350 + 350, each with 549 of the 2800 on its stick, and 851 + 851: five short sticks,
    // one of them on hand, and four joints. Four sticks are 4·900 < 4200, or 1524 + 3·900 = 4224: 4.75 + 3.00 and 0.50 for
    // at least one joint; two longer ones cost more.
    const plan = planned({
      runs: [700, 2800, 700].map((lengthMm) => ({ lengthMm })),
      sticks: [
        { lengthMm: 1524, priceCents: 475, onHand: 0 },
        { lengthMm: 900, priceCents: 150, onHand: 1 },
      ],
      minimumPieceMm: 300,
      joinerCents: 50,
      effort,
    })
    expect(plan).toMatchObject({ costCents: 800, costLowerBoundCents: 800, provenOptimal: true, joints: 4 })
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
      { seed: 4901, numRuns: cases(2000) },
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
