import { estimateFromStock } from '../estimate/shed/from-stock.ts'
import { NOTHING } from '../estimate/shed/stock.ts'
import type { Claim } from '../projects/store.ts'
import { readPlan } from './schemas/read-plan.ts'

/** What a saved plan takes of what lies free in the shed: what its estimate would. */
export const claimOf: Claim = (plan, free) => {
  const read = readPlan(plan)
  const worked = read.ok ? estimateFromStock(read.plan, free) : read
  return worked.ok ? worked.taken : NOTHING
}
