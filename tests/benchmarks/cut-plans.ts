import { readFileSync } from 'node:fs'
import { cheaperFor } from '../../src/laying/compare-plans.ts'
import { type CutListProblem, planCutList } from '../../src/laying/cut-list.ts'
import { planCuts } from '../../src/laying/cut-plan.ts'

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

/** Plans of a garden's size: 2 to 40 runs of 0.3 to 6 m, two lengths of stick, some of them on hand. Always the same. */
export function gardenPlans(count: number): CutListProblem[] {
  let state = 20_260
  const upTo = (most: number) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return Math.floor((state / 2 ** 32) * (most + 1))
  }
  const quarters = (least: number, most: number) => 25 * (least + upTo(most - least))
  return Array.from({ length: count }, () => ({
    runs: Array.from({ length: 2 + upTo(38) }, () => ({ lengthMm: (3000 + upTo(57_000)) / 10 })),
    sticks: [
      { lengthMm: 1524, priceCents: quarters(40, 70), onHand: upTo(3) },
      { lengthMm: 1828.8, priceCents: quarters(50, 90), onHand: upTo(2) },
    ],
    kerfMm: 1,
    minimumPieceMm: 150,
    joinerCents: quarters(1, 6),
    effort: 'quick',
  }))
}

/** What best fit decreasing comes to. */
export function bestFitCents({ runs, sticks, kerfMm, minimumPieceMm, joinerCents }: CutListProblem): number {
  const money = (cents: number) => (cents / 100).toFixed(2)
  const supplies = {
    sticks: sticks.map(({ lengthMm, priceCents, onHand }) => ({
      lengthMm,
      price: money(priceCents),
      packSize: 1,
      onHand,
      buyable: true,
    })),
    joiners: { packSize: 1, pricePerPack: money(joinerCents), onHand: 0, sparePct: 0, massEachKg: null },
  }
  const result = planCuts(runs, supplies.sticks, { kerfMm, minimumPieceMm }, cheaperFor(supplies, 0))
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
