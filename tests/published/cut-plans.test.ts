import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { planCutList } from '../../src/laying/cutting/cut-list.ts'
import { breachesOfCutList } from '../laying/cutting/checker.ts'

/*
 * Derived, proven optima: 36 cut plans that are hard on purpose, each with the least money it can be cut for, proven by a
 * bound that it meets or by going through everything, with independent methods. `data/cut-plans.json` carries its own note.
 */

interface Instance {
  readonly id: string
  readonly runs: readonly number[]
  readonly sticks: readonly { readonly lengthMm: number; readonly price: number; readonly onHand: number }[]
  readonly kerf: number
  readonly minimumPiece: number
  readonly joinerPrice: number
  readonly optimumCost: number
}

const { instances } = JSON.parse(readFileSync(new URL('data/cut-plans.json', import.meta.url), 'utf8')) as {
  readonly instances: readonly Instance[]
}

const LEAST_MET_AT_QUICK = 0.8

function planned(instance: Instance, effort: 'quick' | 'thorough') {
  const { runs, sticks, kerf, minimumPiece, joinerPrice, optimumCost } = instance
  const result = planCutList({
    runs: runs.map((lengthMm) => ({ lengthMm })),
    sticks: sticks.map(({ lengthMm, price, onHand }) => ({ lengthMm, priceCents: cents(price), onHand })),
    kerfMm: kerf,
    minimumPieceMm: minimumPiece,
    joinerCents: cents(joinerPrice),
    effort,
  })
  if (!result.ok) throw new Error(`${instance.id}: ${result.missingMm} mm missing`)
  const { plan } = result
  const asked = {
    runs: runs.map((length) => ({ length })),
    sticks: sticks.map(({ lengthMm, price, onHand }) => ({ length: lengthMm, price, onHand })),
    kerf,
    minimumPiece,
    joinerPrice,
  }
  const cost = (plan.costCents / 100).toFixed(2)
  const costLowerBound = (plan.costLowerBoundCents / 100).toFixed(2)
  expect(breachesOfCutList(asked, { ...plan, cost, costLowerBound })).toEqual([])
  return { plan, optimumCents: cents(optimumCost), dearestCents: Math.max(...sticks.map(({ price }) => cents(price))) }
}

const cents = (money: number) => Math.round(money * 100)

describe('cut plans with proven optima (derived)', () => {
  it('are all there', () => {
    expect(instances).toHaveLength(36)
  })

  it.each(['quick', 'thorough'] as const)('%s: sound, never below the optimum, the bound never above it', (effort) => {
    let met = 0
    for (const instance of instances) {
      const { plan, optimumCents, dearestCents } = planned(instance, effort)
      expect(plan.costCents, instance.id).toBeGreaterThanOrEqual(optimumCents)
      expect(plan.costLowerBoundCents, instance.id).toBeLessThanOrEqual(optimumCents)
      expect(plan.costCents, instance.id).toBeLessThanOrEqual(optimumCents + dearestCents)
      if (plan.costCents === optimumCents) met++
      if (effort === 'thorough') expect(plan.costLowerBoundCents, instance.id).toBe(optimumCents)
    }
    const least = effort === 'quick' ? LEAST_MET_AT_QUICK : 1
    expect(met / instances.length).toBeGreaterThanOrEqual(least)
  })
})
