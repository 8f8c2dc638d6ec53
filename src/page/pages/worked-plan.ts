import { ESTIMATE_PARTS, type Estimate, PARTS_ON_GROUND } from '../../estimate/answer.ts'
import { type FittedPlace, fittedElements, fittedPatch } from '../../estimate/fitted/fitted-patch.ts'
import type { FitsAnswer } from '../../estimate/questions/fit-options.ts'
import { readFits } from '../../estimate/questions/read-fits.ts'
import { readPlan } from '../../estimate/read-plan.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import type { Fault } from '../../measure/fault.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { Stock } from '../../shed/stock.ts'
import type { Workers } from '../../workers/workers.ts'

/** A plan as it was read, with what its estimate was offered from the shed, and the estimate. */
export interface WorkedPlan {
  readonly plan: PlanInput
  readonly estimate: Estimate
  /** What of it was left to be fitted, and what writes it into the plan as it was sent. */
  readonly fitted: {
    readonly places: readonly FittedPlace[]
    readonly patch: Patch
    /** The ways to put turnouts in at the ends of its connections, where they were asked for. */
    readonly turnouts?: FitsAnswer
  }
}

/** Reads a plan as it was sent and estimates it with its stock from the shed; or returns all its faults. */
export function workOut(
  workers: Workers,
  raw: unknown,
  stock: Stock,
): { ok: true; worked: WorkedPlan } | { ok: false; faults: Fault[] } {
  workers.refuseLarge(raw)
  const read = readPlan(raw)
  return read.ok ? workOutRead(workers, raw, read.plan, stock) : read
}

/** The same of a plan that is read already. */
export function workOutRead(workers: Workers, raw: unknown, plan: PlanInput, stock: Stock): ReturnType<typeof workOut> {
  // The drawing shows how far the cars reach, and the garden sheet how high ties are above the ground.
  const parts = (plan.cars?.length ?? 0) > 0 ? ESTIMATE_PARTS : hasGround(plan) ? PARTS_ON_GROUND : undefined
  const answer = workers.estimate({ plan, stock, parts, sent: raw })
  if (!answer.ok) return answer
  const fitted = { places: fittedElements(raw, plan), patch: fittedPatch(raw, plan) }
  return { ok: true, worked: { plan: answer.stocked, estimate: answer.estimate, fitted } }
}

/** The same plan with the ways to put turnouts in at the ends of its connections. */
export function withTurnoutWays(workers: Workers, raw: unknown, worked: WorkedPlan): WorkedPlan {
  const read = readFits({ plan: raw, turnouts: true })
  return { ...worked, fitted: { ...worked.fitted, turnouts: read.ok ? workers.fitOptions(read.asked) : read } }
}

function hasGround({ ground = [], tracks }: PlanInput): boolean {
  return ground.length > 0 || tracks.some((track) => (track.ground?.length ?? 0) > 0)
}
