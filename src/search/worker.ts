/** What a worker thread can be asked for, by name. Every argument and every result is plain data. */
import { estimateFromStock } from '../estimate/shed/from-stock.ts'
import type { StockedPlan } from './search.ts'

export { checkBend } from '../bending/bend-check/check.ts'
export { billSince } from '../estimate/bill-since.ts'
export { compareMaterials } from '../estimate/compare.ts'
export { planCutList } from '../laying/cut-list.ts'

export function estimate({ plan, stock }: StockedPlan) {
  return estimateFromStock(plan, stock)
}
