import { ESTIMATE_PARTS, type Estimate } from '../../estimate/answer.ts'
import { readPlan } from '../../estimate/read-plan.ts'
import type { Fault } from '../../measure/fault.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { Stock } from '../../shed/stock.ts'
import type { Workers } from '../../workers/workers.ts'

/** A plan as it was read, with what its estimate was offered from the shed, and the estimate. */
export interface WorkedPlan {
  readonly plan: PlanInput
  readonly estimate: Estimate
}

/** Reads a plan as it was sent and estimates it with its stock from the shed; or returns all its faults. */
export function workOut(
  workers: Workers,
  raw: unknown,
  stock: Stock,
): { ok: true; worked: WorkedPlan } | { ok: false; faults: Fault[] } {
  workers.refuseLarge(raw)
  const read = readPlan(raw)
  if (!read.ok) return read
  // The drawing shows how far the cars reach.
  const parts = (read.plan.cars?.length ?? 0) > 0 ? ESTIMATE_PARTS : undefined
  const answer = workers.estimate({ plan: read.plan, stock, parts, sent: raw })
  if (!answer.ok) return answer
  return { ok: true, worked: { plan: answer.stocked, estimate: answer.estimate } }
}
