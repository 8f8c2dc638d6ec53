import { checkBend } from '../bending/bend-check/check.ts'
import { estimate } from '../estimate/estimate.ts'
import { planCutList } from '../laying/cut-list.ts'
import type { Search } from './search.ts'

/** Does everything at once in the thread that asks. */
export const onTheSpot: Search = {
  estimate: async (plan) => estimate(plan),
  planCutList: async (problem) => planCutList(problem),
  checkBend: async (input) => checkBend(input),
}
