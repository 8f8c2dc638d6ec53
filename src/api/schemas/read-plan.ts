import { planFaults } from '../../estimate/faults.ts'
import type { PlanInput } from '../../estimate/plan.ts'
import type { Fault } from '../../measure/fault.ts'
import { faultsOf } from './issues.ts'
import { PlanSchema } from './plan.ts'
import { draftOf } from './plan-draft.ts'
import { bulkFaults, oversizeFaults } from './plan-size.ts'
import { toPlanInput } from './to-plan-input.ts'
import { valueAt } from '../../plan/reading/value-at.ts'

export type ReadPlan =
  | { readonly ok: true; readonly plan: PlanInput }
  | { readonly ok: false; readonly faults: Fault[] }

/**
 * Reads a plan as it came over the wire (or out of the store), with every fault it has, those of its fields and those
 * between its parts, at one go.
 *
 * @param raw any JSON value
 */
export function readPlan(raw: unknown): ReadPlan {
  const oversized = oversizeFaults(raw)
  if (oversized.length > 0) return { ok: false, faults: oversized }
  const parsed = PlanSchema.safeParse(raw)
  if (!parsed.success) {
    const found = faultsOf(parsed.error.issues, raw)
    return { ok: false, faults: withMore(found, asWritten(planFaults(draftOf(raw)), raw)) }
  }
  const plan = toPlanInput(parsed.data)
  const faults = [...planFaults(plan), ...bulkFaults(plan)]
  return faults.length === 0 ? { ok: true, plan } : { ok: false, faults: asWritten(faults, raw) }
}

/** What single fields are refused for, and what is wrong between those that can be read: no place twice. */
export function withMore(found: readonly Fault[], between: readonly Fault[]): Fault[] {
  const reported = new Set(found.map(placeOf))
  return [...found, ...between.filter((fault) => !reported.has(placeOf(fault)))]
}

function placeOf({ path }: Fault): string {
  return JSON.stringify(path)
}

/** A curve given by its diameter has no `radius` to point at. */
export function asWritten(faults: readonly Fault[], raw: unknown): Fault[] {
  return faults.map((fault) => {
    const curve = fault.path.slice(0, -1)
    const byDiameter = fault.path.at(-1) === 'radius' && valueAt(raw, [...curve, 'diameter']) !== undefined
    return byDiameter ? { ...fault, path: [...curve, 'diameter'] } : fault
  })
}
