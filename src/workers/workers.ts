import type { BendCheckResult } from '../bending/bend-check/check.ts'
import type { BendCheckInput } from '../bending/bend-check/types.ts'
import type { ComparisonInput, compareMaterials } from '../estimate/questions/compare.ts'
import type { CutListProblem, CutListResult } from '../laying/cutting/cut-list.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { billSince, PlannedRevision } from '../shed/bill-since.ts'
import type { estimateFromStock } from '../shed/from-stock.ts'
import type { Stock } from '../shed/stock.ts'

/** Who waits for an answer, such as a request. Once the signal is given nobody does, and the work is given up. */
export interface Asker {
  /** Looked at only where work is long: a request makes one when it is asked for it. */
  readonly signal: AbortSignal
}

/** A plan without faults, and what the shed has for it. */
export interface StockedPlan {
  readonly plan: PlanInput
  readonly stock: Stock
}

/**
 * The functions of the pure rooms that may take long. Rejects with a `WorkersError` where there is too much to do or
 * nobody waits any more, and with whatever the function threw.
 */
export interface Workers {
  estimate(stocked: StockedPlan, asker: Asker): Promise<ReturnType<typeof estimateFromStock>>
  billSince(revisions: readonly PlannedRevision[], asker: Asker): Promise<ReturnType<typeof billSince>>
  compareMaterials(asked: ComparisonInput, asker: Asker): Promise<ReturnType<typeof compareMaterials>>
  planCutList(problem: CutListProblem, asker: Asker): Promise<CutListResult>
  checkBend(input: BendCheckInput, asker: Asker): Promise<BendCheckResult>
}
