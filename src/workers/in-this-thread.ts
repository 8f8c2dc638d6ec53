import { checkBend } from '../bending/bend-check/check.ts'
import { compareMaterials } from '../estimate/questions/compare.ts'
import { planCutList } from '../laying/cutting/cut-list.ts'
import { billSince } from '../shed/bill-since.ts'
import { rememberedEstimate } from './remembered-estimates.ts'
import type { Workers } from './workers.ts'

/** Does everything immediately, in the calling thread. */
export const inThisThread: Workers = {
  estimate: async (stocked) => rememberedEstimate(stocked),
  billSince: async (revisions) => billSince(revisions),
  compareMaterials: async (input) => compareMaterials(input),
  planCutList: async (problem) => planCutList(problem),
  checkBend: async (input) => checkBend(input),
}
