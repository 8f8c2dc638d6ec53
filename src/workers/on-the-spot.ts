import { checkBend } from '../bending/bend-check/check.ts'
import { compareMaterials } from '../estimate/questions/compare.ts'
import { planCutList } from '../laying/cutting/cut-list.ts'
import { billSince } from '../shed/bill-since.ts'
import { estimateFromStock } from '../shed/from-stock.ts'
import type { Workers } from './workers.ts'

/** Does everything at once in the thread that asks. */
export const onTheSpot: Workers = {
  estimate: async ({ plan, stock }) => estimateFromStock(plan, stock),
  billSince: async (revisions) => billSince(revisions),
  compareMaterials: async (asked) => compareMaterials(asked),
  planCutList: async (problem) => planCutList(problem),
  checkBend: async (input) => checkBend(input),
}
