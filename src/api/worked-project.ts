import type { Estimate } from '../estimate/answer.ts'
import { asWritten, inPlan, readPlan } from '../estimate/read-plan.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { Project } from '../projects/store.ts'
import type { Stock } from '../shed/stock.ts'
import type { Asker, Workers } from '../workers/workers.ts'
import { type Refusal, unacceptable } from './problem.ts'

export type CannotWorkOut = Refusal<'unacceptable-content'>

export type WorkedProject =
  | { readonly ok: true; readonly stocked: PlanInput; readonly estimate: Estimate; readonly taken: Stock }
  | { readonly ok: false; readonly refusal: CannotWorkOut }

/** The estimate of a saved plan that may use this stock, the plan as it was then, and what it takes of the stock. */
export async function workOutProject(
  workers: Workers,
  { plan }: Pick<Project, 'plan'>,
  stock: Stock,
  asker: Asker,
): Promise<WorkedProject> {
  const read = readPlan(plan)
  if (!read.ok) return { ok: false, refusal: unacceptable(read.faults.map(inPlan)) }
  const result = await workers.estimate({ plan: read.plan, stock }, asker)
  if (!result.ok) return { ok: false, refusal: unacceptable(asWritten(result.faults, plan).map(inPlan)) }
  return result
}
