import type { Fault } from '../measure/fault.ts'
import { faultsInUnits, type Units } from '../measure/in-units.ts'
import { draftOf } from '../plan/reading/draft.ts'
import { faultsOf } from '../plan/reading/issues.ts'
import { currencyIn, priceFaults } from '../plan/reading/prices.ts'
import { schemaOf } from '../plan/reading/schema.ts'
import { bulkFaults, oversizeFaults } from '../plan/reading/size.ts'
import { valueAt } from '../plan/reading/value-at.ts'
import { PLAN, type PlanInput } from '../plan/rows/plan.ts'
import { planFaults } from './faults/faults.ts'

export type ReadPlan =
  | { readonly ok: true; readonly plan: PlanInput }
  | { readonly ok: false; readonly faults: Fault[] }

/**
 * Reads a plan as it was sent (or stored), with every fault in its fields and
 * between its parts at once.
 *
 * @param raw any JSON value
 */
export function readPlan(raw: unknown): ReadPlan {
  const read = readInMetric(raw)
  return read.ok ? read : { ok: false, faults: faultsInUnits(read.faults, unitsIn(raw)) }
}

/** Those a plan asks for, even if it has other faults. */
function unitsIn(raw: unknown): Units | undefined {
  const units = valueAt(raw, ['units'])
  return units === 'metric' || units === 'imperial' ? units : undefined
}

function readInMetric(raw: unknown): ReadPlan {
  const oversized = oversizeFaults(raw)
  if (oversized.length > 0) return { ok: false, faults: oversized }
  const parsed = schemaOf(PLAN).safeParse(raw)
  const ofPrices = priceFaults(PLAN, raw, currencyIn(valueAt(raw, ['supplies'])))
  if (!parsed.success) {
    const found = faultsOf(parsed.error.issues, raw)
    return { ok: false, faults: mergedFaults(found, [...asWritten(planFaults(draftOf(raw)), raw), ...ofPrices]) }
  }
  const plan = parsed.data
  const faults = [...planFaults(plan), ...ofPrices, ...bulkFaults(plan)]
  return faults.length === 0 ? { ok: true, plan } : { ok: false, faults: asWritten(faults, raw) }
}

/** Faults of single fields, and faults between those that can be read: each place only once. */
export function mergedFaults(found: readonly Fault[], between: readonly Fault[]): Fault[] {
  const reported = new Set(found.map(placeOf))
  return [...found, ...between.filter((fault) => !reported.has(placeOf(fault)))]
}

function placeOf({ path }: Fault): string {
  return JSON.stringify(path)
}

/** A curve given by its diameter has no `radius` field to point to. */
export function asWritten(faults: readonly Fault[], raw: unknown): Fault[] {
  return faults.map((fault) => {
    const curve = fault.path.slice(0, -1)
    const byDiameter = fault.path.at(-1) === 'radius' && valueAt(raw, [...curve, 'diameter']) !== undefined
    return byDiameter ? { ...fault, path: [...curve, 'diameter'] } : fault
  })
}

/** A fault of a plan, with its place in a request whose field `plan` holds that plan. */
export function inPlan(fault: Fault): Fault {
  return { ...fault, path: ['plan', ...fault.path] }
}
