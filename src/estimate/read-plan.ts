import type { Fault } from '../measure/fault.ts'
import { faultsInUnits, type Units } from '../measure/in-units.ts'
import { fittedElement } from '../plan/elements.ts'
import { unknownFaults } from '../plan/faults/unknowns.ts'
import { draftOf, type PlanDraft } from '../plan/reading/draft.ts'
import { faultsOf } from '../plan/reading/issues.ts'
import { currencyIn, priceFaults } from '../plan/reading/prices.ts'
import { schemaOf } from '../plan/reading/schema.ts'
import { bulkFaults, oversizeFaults } from '../plan/reading/size.ts'
import { valueAt } from '../plan/reading/value-at.ts'
import { PLAN, type PlanAsSent, type PlanInput } from '../plan/rows/plan.ts'
import { planFaults } from './faults/faults.ts'
import { type Connection, fitPlan, isFitted } from './fitted/fit-plan.ts'

export type ReadPlan =
  | {
      readonly ok: true
      /** With everything worked out that it left to be fitted. */
      readonly plan: PlanInput
      /** How its connections can be made, where it has some. */
      readonly connections?: readonly Connection[]
    }
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
  if (!isFitted(plan)) return readFitted(plan, raw, ofPrices)
  const faults = [...planFaults(plan), ...ofPrices, ...bulkFaults(plan)]
  return faults.length === 0 ? { ok: true, plan } : { ok: false, faults: asWritten(faults, raw) }
}

/** A plan that leaves lengths, angles or paths open: first what is known of it is checked, then what they came to be. */
function readFitted(plan: PlanAsSent, raw: unknown, ofPrices: readonly Fault[]): ReadPlan {
  const faults = [...planFaults(knownOf(plan)), ...ofPrices, ...unknownFaults(plan)]
  if (faults.length > 0) return { ok: false, faults: asWritten(faults, raw) }
  const result = fitPlan(plan)
  if (!result.ok) return { ok: false, faults: asWritten(result.faults, raw) }
  const { fitted } = result
  const after = [...planFaults(fitted.plan), ...bulkFaults(fitted.plan)]
  if (after.length > 0)
    return {
      ok: false,
      faults: asWritten(
        after.map((fault) => asSent(fault, plan, fitted.plan)),
        raw,
      ),
    }
  return { ok: true, plan: fitted.plan, connections: fitted.connections }
}

/** Null for what is open, as for what cannot be read: what depends on it is not checked yet. */
function knownOf(plan: PlanAsSent): PlanDraft {
  return { ...plan, tracks: plan.tracks.map((track) => ({ ...track, elements: track.elements.map(fittedElement) })) }
}

/** The place of a fault in the plan as it was sent, where a connection is one element. */
function asSent(fault: Fault, sent: PlanAsSent, fitted: PlanInput): Fault {
  const [tracks, track, elements, index, ...rest] = fault.path
  if (tracks !== 'tracks' || elements !== 'elements' || typeof track !== 'number' || typeof index !== 'number')
    return fault
  const given = sent.tracks[track]!.elements
  const at = given.findIndex(({ kind }) => kind === 'connect')
  if (at < 0 || index < at) return fault
  const more = fitted.tracks[track]!.elements.length - given.length
  if (index <= at + more) return { ...fault, path: [tracks, track, elements, at] }
  return { ...fault, path: [tracks, track, elements, index - more, ...rest] }
}

/** Faults of single fields, and faults between those that can be read: each place only once. */
export function mergedFaults(found: readonly Fault[], between: readonly Fault[]): Fault[] {
  const reported = new Set(found.map(placeOf))
  return [...found, ...between.filter((fault) => !reported.has(placeOf(fault)))]
}

function placeOf({ path }: Fault): string {
  return JSON.stringify(path)
}

/** A curve given by its diameter or its degree has no `radius` field to point to. */
export function asWritten(faults: readonly Fault[], raw: unknown): Fault[] {
  return faults.map((fault) => {
    const curve = fault.path.slice(0, -1)
    const given =
      fault.path.at(-1) === 'radius' &&
      ['diameter', 'degree'].find((name) => valueAt(raw, [...curve, name]) !== undefined)
    return given ? { ...fault, path: [...curve, given] } : fault
  })
}

/** A fault of a plan, with its place in a request whose field `plan` holds that plan. */
export function inPlan(fault: Fault): Fault {
  return { ...fault, path: ['plan', ...fault.path] }
}
