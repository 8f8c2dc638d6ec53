import { checkBend } from '../bending/bend-check/check.ts'
import { compareMaterials } from '../estimate/questions/compare.ts'
import { planCutList } from '../laying/cutting/cut-list.ts'
import { billSince } from '../shed/bill-since.ts'
import { estimateFromStock } from '../shed/from-stock.ts'
import type { Workers } from './workers.ts'

/** Does everything immediately, in the calling thread. */
export const inThisThread: Workers = {
  estimate: async ({ plan, stock, parts, sent }) => estimateFromStock(plan, stock, { parts, sent }),
  billSince: async (revisions) => billSince(revisions),
  compareMaterials: async (input) => compareMaterials(input),
  planCutList: async (problem) => planCutList(problem),
  checkBend: async (input) => checkBend(input),
}
