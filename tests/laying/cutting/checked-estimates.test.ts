import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cases } from '../../cases.ts'
import { breachesOfEstimate } from './checker.ts'
import { answered, sentPlan } from './sent-plans.ts'

const SEEDS = [4501, 4502, 4503, 4504] as const
const PLANS_A_SEED = 300

describe('estimates looked over by an independent checker', () => {
  it.each(SEEDS)('random plans, seed %i', { timeout: 120_000 }, (seed) => {
    fc.assert(
      fc.property(sentPlan, (plan) => {
        expect(breachesOfEstimate(plan, answered(plan))).toEqual([])
      }),
      { seed, numRuns: cases(PLANS_A_SEED) },
    )
  })
})
