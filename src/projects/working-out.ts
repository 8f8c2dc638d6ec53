import type { Estimate, EstimatePart } from '../estimate/answer.ts'
import { asWritten, inPlan, readPlan } from '../estimate/read-plan.ts'
import type { Fault } from '../measure/fault.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { Stock } from '../shed/stock.ts'
import type { Workers } from '../workers/workers.ts'
import type { Project } from './store.ts'

export type WorkedProject =
  | { readonly ok: true; readonly stocked: PlanInput; readonly estimate: Estimate; readonly taken: Stock }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * The estimate of a saved plan with this stock, the plan as estimated, and what it takes of the stock; or why this version
 * cannot work it out, with places in the project.
 */
export function workOutProject(
  workers: Workers,
  { plan }: Pick<Project, 'plan'>,
  stock: Stock,
  parts?: readonly EstimatePart[],
): WorkedProject {
  workers.refuseLarge(plan)
  const read = readPlan(plan)
  if (!read.ok) return { ok: false, faults: read.faults.map(inPlan) }
  const result = workers.estimate({ plan: read.plan, stock, parts, sent: plan })
  return result.ok ? result : { ok: false, faults: asWritten(result.faults, plan).map(inPlan) }
}
