import { describe, expect, it } from 'vitest'
import { estimate } from '../../../src/estimate/estimate.ts'
import { gardenLines } from './garden-lines.ts'

/* How near plans with trim and with rules for joints come to the bound at quick; the bound is held against brute force in with-trim.test.ts. */

const PLANS = 60

describe('garden plans as people send them, at quick', () => {
  it.each([
    { what: 'plain', trim: false, rules: false, share: 0.98, meanGap: 0.001 },
    { what: 'with trim', trim: true, rules: false, share: 0.93, meanGap: 0.005 },
    { what: 'with stagger and stretches without joints', trim: false, rules: true, share: 0.93, meanGap: 0.006 },
    { what: 'with both', trim: true, rules: true, share: 0.75, meanGap: 0.01 },
  ])('$what: proven or within 1 % of the bound', { timeout: 300_000 }, ({ trim, rules, share, meanGap }) => {
    let near = 0
    let gaps = 0
    for (const plan of gardenLines(PLANS, { trim, rules })) {
      const result = estimate(plan)
      if (!result.ok) throw new Error(JSON.stringify(result.faults))
      const { cost, costLowerBound, provenOptimal } = result.estimate.cutting
      const gap = Number(cost) / Number(costLowerBound) - 1
      expect(gap).toBeGreaterThanOrEqual(0)
      if (provenOptimal || gap <= 0.01) near++
      gaps += gap
    }
    expect(near / PLANS).toBeGreaterThanOrEqual(share)
    expect(gaps / PLANS).toBeLessThanOrEqual(meanGap)
  })
})
