import { readFileSync } from 'node:fs'
import { cheaperFor } from '../../src/laying/cutting/compare-plans.ts'
import { type CutListProblem, planCutList } from '../../src/laying/cutting/cut-list.ts'
import { planCuts } from '../../src/laying/cutting/cut-plan.ts'

/* The planner of cuts beside plain best fit decreasing, which is what it starts from. */

export interface KnownOptimum {
  readonly id: string
  readonly problem: CutListProblem
  readonly optimumCents: number
}

/** The plans with proven optima, see tests/published/cut-plans.test.ts. */
export function knownOptima(effort: CutListProblem['effort']): KnownOptimum[] {
  const { instances } = JSON.parse(
    readFileSync(new URL('../published/data/cut-plans.json', import.meta.url), 'utf8'),
  ) as {
    instances: {
      id: string
      runs: number[]
      sticks: { lengthMm: number; price: number; onHand: number }[]
      kerf: number
      minimumPiece: number
      joinerPrice: number
      optimumCost: number
    }[]
  }
  const cents = (money: number) => Math.round(100 * money)
  return instances.map(({ id, runs, sticks, kerf, minimumPiece, joinerPrice, optimumCost }) => ({
    id,
    optimumCents: cents(optimumCost),
    problem: {
      runs: runs.map((lengthMm) => ({ lengthMm })),
      sticks: sticks.map(({ lengthMm, price, onHand }) => ({ lengthMm, priceCents: cents(price), onHand })),
      kerfMm: kerf,
      minimumPieceMm: minimumPiece,
      joinerCents: cents(joinerPrice),
      effort,
    },
  }))
}

/** What best fit decreasing comes to. */
export function bestFitCents({ runs, sticks, kerfMm, minimumPieceMm, joinerCents }: CutListProblem): number {
  const money = (cents: number) => (cents / 100).toFixed(2)
  const supplies = {
    sticks: sticks.map(({ lengthMm, priceCents, onHand }) => ({
      length: lengthMm,
      price: money(priceCents),
      packSize: 1,
      onHand,
      buyable: true,
    })),
    joiners: { packSize: 1, pricePerPack: money(joinerCents), onHand: 0, sparePct: 0, massEachG: null },
  }
  const result = planCuts(
    runs,
    supplies.sticks,
    { kerf: kerfMm, minimumPiece: minimumPieceMm },
    cheaperFor(supplies, 0),
  )
  if (!result.ok) throw new Error(`${result.missingMm} mm missing`)
  const { plan } = result
  const joints = plan.piecesPerRun.reduce((sum, pieces) => sum + pieces - 1, 0)
  return sticks.reduce(
    (sum, { lengthMm, priceCents, onHand }) =>
      sum + priceCents * Math.max(0, plan.sticks.filter((stick) => stick.lengthMm === lengthMm).length - onHand),
    joints * joinerCents,
  )
}

export interface Measured {
  readonly cents: number
  readonly proven: boolean
  readonly ms: number
}

export function measured(problem: CutListProblem): Measured {
  const from = performance.now()
  const result = planCutList(problem)
  const ms = performance.now() - from
  if (!result.ok) throw new Error(`${result.missingMm} mm missing`)
  return { cents: result.plan.costCents, proven: result.plan.provenOptimal, ms }
}
