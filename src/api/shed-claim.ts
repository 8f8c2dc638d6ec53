import { readPlan } from '../estimate/read-plan.ts'
import type { Claim } from '../projects/store.ts'
import { estimateFromStock } from '../shed/from-stock.ts'
import { NOTHING } from '../shed/stock.ts'

/**
 * What a saved plan takes of what lies free in the shed: what its estimate would, looked for quickly, since everybody who
 * saves waits for it. A thorough estimate is then made of that.
 */
export const claimOf: Claim = (plan, free) => {
  const read = readPlan(plan)
  const worked = read.ok ? estimateFromStock({ ...read.plan, effort: 'quick' }, free) : read
  return worked.ok ? worked.taken : NOTHING
}
