import { describe, expect, it } from 'vitest'
import { type CutListProblem, planCutList } from '../../../src/laying/cutting/cut-list.ts'
import { breachesOfCutList } from './checker.ts'
import { pairedPlans, singlePlans } from './garden-plans.ts'

/* What is called proven is held against everything there is in exhaustive.test.ts; `npm run bench` takes 1,000 of each. */

const PLANS = 150

/** The share of plans that are proven optimal in money; each is looked over by the independent checker. */
function shareProven(problems: readonly CutListProblem[]): number {
  const proven = problems.filter((problem) => {
    const result = planCutList(problem)
    if (!result.ok) throw new Error(`${result.missingMm} mm missing`)
    const { plan } = result
    const asked = {
      runs: problem.runs.map(({ lengthMm }) => ({ length: lengthMm })),
      sticks: problem.sticks.map(({ lengthMm, priceCents, onHand }) => ({
        length: lengthMm,
        price: priceCents / 100,
        onHand,
      })),
      kerf: problem.kerfMm,
      minimumPiece: problem.minimumPieceMm,
      joinerPrice: problem.joinerCents / 100,
    }
    const money = (cents: number) => (cents / 100).toFixed(2)
    const told = { cost: money(plan.costCents), costLowerBound: money(plan.costLowerBoundCents) }
    expect(breachesOfCutList(asked, { ...plan, ...told })).toEqual([])
    return plan.provenOptimal
  })
  return proven.length / problems.length
}

describe('plans of a garden’s size at quick', () => {
  it.each([
    { what: 'the two rails of tracks', problems: pairedPlans(PLANS), least: 0.99 },
    { what: 'runs that have nothing to do with each other', problems: singlePlans(PLANS), least: 0.96 },
  ])('$what: nearly all are proven optimal in money', { timeout: 120_000 }, ({ problems, least }) => {
    expect(shareProven(problems)).toBeGreaterThanOrEqual(least)
  })
})
