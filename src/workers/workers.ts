import type { BendCheckResult } from '../bending/bend-check/check.ts'
import type { BendCheckInput } from '../bending/bend-check/types.ts'
import type { EstimatePart } from '../estimate/answer.ts'
import type { ComparisonInput, compareMaterials } from '../estimate/questions/compare.ts'
import type { CutListProblem, CutListResult } from '../laying/cutting/cut-list.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { billSince, PlannedRevision } from '../shed/bill-since.ts'
import type { estimateFromStock } from '../shed/from-stock.ts'
import type { Stock } from '../shed/stock.ts'

/** Who waits for the result, such as a request. When the signal is aborted, the work is cancelled. */
export interface Client {
  /** Read only for long work, because a request creates it when it is first read. */
  readonly signal: AbortSignal
}

/** A plan without faults, and what the shed has for it. */
export interface StockedPlan {
  readonly plan: PlanInput
  readonly stock: Stock
  /** Those that will be read of the estimate; all when left out. */
  readonly parts?: readonly EstimatePart[] | undefined
  /** The plan as it was sent; without it no remedies are looked for. */
  readonly sent?: unknown
}

/**
 * The functions of the pure rooms that may take long. They reject with a `WorkersError` if there is too much work or the
 * client has disconnected, and otherwise with the error of the function.
 */
export interface Workers {
  estimate(stocked: StockedPlan, client: Client): Promise<ReturnType<typeof estimateFromStock>>
  billSince(revisions: readonly PlannedRevision[], client: Client): Promise<ReturnType<typeof billSince>>
  compareMaterials(input: ComparisonInput, client: Client): Promise<ReturnType<typeof compareMaterials>>
  planCutList(problem: CutListProblem, client: Client): Promise<CutListResult>
  checkBend(input: BendCheckInput, client: Client): Promise<BendCheckResult>
}
