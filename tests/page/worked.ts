import { readPlan } from '../../src/api/schemas/read-plan.ts'
import { type WorkedPlan, workOut } from '../../src/page/worked-plan.ts'

/** A plan worked out; one that cannot be throws its faults. */
export function worked(plan: unknown): WorkedPlan {
  const result = workOut(readPlan, plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.worked
}
