/** The functions that a worker thread can run, by name. Arguments and results are plain data. */
import { estimateFromStock } from '../shed/from-stock.ts'
import type { StockedPlan } from './workers.ts'

export { checkBend } from '../bending/bend-check/check.ts'
export { compareMaterials } from '../estimate/questions/compare.ts'
export { planCutList } from '../laying/cutting/cut-list.ts'
export { billSince } from '../shed/bill-since.ts'

export function estimate({ plan, stock, parts, sent }: StockedPlan) {
  return estimateFromStock(plan, stock, { parts, sent })
}
