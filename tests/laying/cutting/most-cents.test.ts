import { expect, it } from 'vitest'
import { bestCutPlan } from '../../../src/laying/cutting/best-cut-plan.ts'
import type { CutListProblem } from '../../../src/laying/cutting/cut-list.ts'
import { pairedPlans, singlePlans } from './garden-plans.ts'

/** Rough, as mixes of ready-made track are compared. */
function planned({ runs, sticks, kerfMm, minimumPieceMm, joinerCents }: CutListProblem, mostCents?: number) {
  const money = (cents: number) => (cents / 100).toFixed(2)
  return bestCutPlan(
    runs,
    {
      sticks: sticks.map(({ lengthMm, priceCents, onHand }) => ({
        ...{ length: lengthMm, price: money(priceCents), packSize: 1, onHand, buyable: true },
      })),
      joiners: { packSize: 1, pricePerPack: money(joinerCents), onHand: 0, sparePct: 0, massEachG: null },
    },
    { kerf: kerfMm, minimumPiece: minimumPieceMm },
    { otherJoints: 0, effort: 'rough', cutting: 'whole-sticks', mostCents },
  )
}

it('a plan within what it may cost is the same as without a limit; of a dearer one nothing is missing', () => {
  for (const problem of [...pairedPlans(15, 11), ...singlePlans(15, 12)]) {
    const best = planned(problem)
    if (!best.ok) throw new Error(`${best.missingMm} mm missing`)
    const { cents } = best.cost!
    for (const mostCents of [cents, cents + 1, cents + 500]) {
      const within = planned(problem, mostCents)
      expect(within.ok && within.plan).toEqual(best.plan)
    }
    for (const mostCents of [cents - 1, cents - 500, -1])
      expect(planned(problem, mostCents)).toEqual({ ok: false, missingMm: 0 })
  }
})
