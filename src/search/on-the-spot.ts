import { checkBend } from '../bending/bend-check/check.ts'
import { billSince } from '../estimate/bill-since.ts'
import { compareMaterials } from '../estimate/compare.ts'
import { estimateFromStock } from '../estimate/shed/from-stock.ts'
import { planCutList } from '../laying/cut-list.ts'
import type { Search } from './search.ts'

/** Does everything at once in the thread that asks. */
export const onTheSpot: Search = {
  estimate: async ({ plan, stock }) => estimateFromStock(plan, stock),
  billSince: async (revisions) => billSince(revisions),
  compareMaterials: async (asked) => compareMaterials(asked),
  planCutList: async (problem) => planCutList(problem),
  checkBend: async (input) => checkBend(input),
}
