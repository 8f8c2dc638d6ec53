import type { BendCheckResult } from '../bending/bend-check/check.ts'
import type { BendCheckInput } from '../bending/bend-check/types.ts'
import type { EstimatePart } from '../estimate/answer.ts'
import type { calibrateAlone } from '../estimate/questions/calibration.ts'
import type { ComparisonInput, compareMaterials } from '../estimate/questions/compare.ts'
import type { figure } from '../estimate/questions/figure.ts'
import type { FitsAsked, fitOptions } from '../estimate/questions/fit-options.ts'
import type { moveTrack } from '../estimate/questions/move.ts'
import type { oneCurve } from '../estimate/questions/one-curve.ts'
import type { FigureQuestion } from '../estimate/questions/read-figure.ts'
import type { MoveAsked } from '../estimate/questions/read-move.ts'
import type { settingOut } from '../estimate/questions/setting-out.ts'
import type { CutListProblem, CutListResult } from '../laying/cutting/cut-list.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { CalibrationInput, CurveInput } from '../plan/rows/questions.ts'
import type { SurveyInput } from '../plan/rows/survey.ts'
import type { billSince, PlannedRevision } from '../shed/bill-since.ts'
import type { ForeseenBuilding, foreseeBuilding } from '../shed/foresee-building.ts'
import type { estimateFromStock } from '../shed/from-stock.ts'
import type { Stock } from '../shed/stock.ts'
import type { SurveyResult } from '../survey/survey.ts'

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
 * The functions of the pure rooms that may take long. In the thread that answers requests they throw `Elsewhere` if the work,
 * or showing what comes of it, would keep others waiting.
 */
export interface Workers {
  /** Throws `Elsewhere` where reading or showing this value would take long. */
  refuseLarge(value: unknown): void
  /** Throws `Elsewhere`: for what always takes long, whatever it is made of. */
  refuseHere(): void
  estimate(stocked: StockedPlan): ReturnType<typeof estimateFromStock>
  billSince(revisions: readonly PlannedRevision[]): ReturnType<typeof billSince>
  compareMaterials(input: ComparisonInput): ReturnType<typeof compareMaterials>
  planCutList(problem: CutListProblem): CutListResult
  checkBend(input: BendCheckInput): BendCheckResult
  bendCurve(curve: CurveInput): ReturnType<typeof oneCurve>
  calibrate(asked: CalibrationInput): ReturnType<typeof calibrateAlone>
  setOut(...asked: Parameters<typeof settingOut>): ReturnType<typeof settingOut>
  figure(question: FigureQuestion): ReturnType<typeof figure>
  fitOptions(asked: FitsAsked): ReturnType<typeof fitOptions>
  moveTrack(asked: MoveAsked): ReturnType<typeof moveTrack>
  survey(input: SurveyInput): SurveyResult
  /** Between reading a project and marking it as built, which is not to be done twice: so it waits for the work. */
  foreseeBuilding(asked: Parameters<typeof foreseeBuilding>[0], client: Client): Promise<ForeseenBuilding>
}
