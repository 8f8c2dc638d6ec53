import { asWritten, inPlan, readPlan } from '../estimate/read-plan.ts'
import type { Fault } from '../measure/fault.ts'
import { leftOver } from './after-building.ts'
import { estimateFromStock } from './from-stock.ts'
import type { Stock } from './stock.ts'

/** What building a plan takes from the shed and returns, or why that is unknown, with places in its project. */
export type ForeseenBuilding =
  | { readonly ok: true; readonly taken: Stock; readonly returned: Stock }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** By the estimate of the plan, as it was saved, with the stock that is reserved for it. */
export function foreseeBuilding({
  plan: raw,
  reserved,
}: {
  readonly plan: unknown
  readonly reserved: Stock
}): ForeseenBuilding {
  const read = readPlan(raw)
  if (!read.ok) return { ok: false, faults: read.faults.map(inPlan) }
  const worked = estimateFromStock(read.plan, reserved)
  if (!worked.ok) return { ok: false, faults: asWritten(worked.faults, raw).map(inPlan) }
  return { ok: true, taken: worked.taken, returned: leftOver(worked.stocked, worked.estimate) }
}
