import type { Estimate } from '../estimate/answer.ts'
import { completePlan } from '../estimate/complete-plan.ts'
import type { Plan, PlanInput } from '../estimate/plan.ts'
import { estimateFromStock, stockFor } from '../estimate/shed/from-stock.ts'
import { NOTHING, type Stock } from '../estimate/shed/stock.ts'
import type { Fault } from '../measure/fault.ts'
import { placeElements } from '../track/place.ts'
import type { PlanToDraw } from './drawing/drawn-plan.ts'

export type ReadPlan = (raw: unknown) => { ok: true; plan: PlanInput } | { ok: false; faults: Fault[] }

/** A plan with nothing left open and everything that follows from it. */
export interface WorkedPlan {
  readonly plan: Plan
  readonly estimate: Estimate
}

/** Reads a plan as it was written and works it out with what the shed has for it, or says everything that is wrong with it. */
export function workOut(
  readPlan: ReadPlan,
  raw: unknown,
  stock: Stock = NOTHING,
): { ok: true; worked: WorkedPlan } | { ok: false; faults: Fault[] } {
  const read = readPlan(raw)
  if (!read.ok) return read
  const answer = estimateFromStock(read.plan, stock)
  if (!answer.ok) return answer
  const { plan } = completePlan(stockFor(read.plan, stock).plan)
  return { ok: true, worked: { plan, estimate: answer.estimate } }
}

/** What of a worked plan goes into its drawing. */
export function planToDraw({ plan, estimate: answer }: WorkedPlan): PlanToDraw {
  return {
    title: plan.title,
    gaugeMm: plan.gaugeMm,
    headWidthMm: plan.section.headWidthMm,
    tracks: plan.tracks.map(({ name, start, closed, state, joinsExisting, elements }, index) => ({
      name,
      closed,
      state,
      joinsExisting,
      placed: placeElements(
        { xMm: start.xMm, yMm: start.yMm, headingRad: (start.headingDeg * Math.PI) / 180 },
        elements,
        closed,
      ),
      tieSpacingMm: answer.tracks[index]!.tieSpacingMm,
    })),
  }
}
