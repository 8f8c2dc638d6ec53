import { readPlan } from '../estimate/read-plan.ts'
import { estimateFromStock } from '../shed/from-stock.ts'
import { NOTHING } from '../shed/stock.ts'
import type { NeededStock } from './store.ts'

/**
 * What a saved plan takes of the free stock: what its quick estimate takes, because saving waits for it. A thorough estimate
 * later uses that stock.
 */
export const neededStock: NeededStock = (plan, free) => {
  const read = readPlan(plan)
  const worked = read.ok ? estimateFromStock({ ...read.plan, effort: 'quick' }, free, { parts: ['bill'] }) : read
  return worked.ok ? worked.taken : NOTHING
}
