import type { Estimate } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'

/** The estimate of a plan as it is sent; a fault is thrown. */
export function worked(plan: unknown): Estimate {
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan, { sent: plan })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}
