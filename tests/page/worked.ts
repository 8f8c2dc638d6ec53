import { estimate } from '../../src/estimate/estimate.ts'
import { fittedElements, fittedPatch } from '../../src/estimate/fitted/fitted-patch.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { WorkedPlan } from '../../src/page/pages/worked-plan.ts'

/** A plan worked out; one that cannot be throws its faults. */
export function worked(plan: unknown): WorkedPlan {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan) : read
  if (!read.ok || !result.ok) throw new Error(JSON.stringify(!result.ok && result.faults))
  const fitted = { places: fittedElements(plan, read.plan), patch: fittedPatch(plan, read.plan) }
  return { plan: read.plan, estimate: result.estimate, fitted }
}
