import type { Fault } from '../../measure/fault.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { envelopeOf } from '../../plan/reading/schema.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import { FITS } from '../../plan/rows/questions.ts'
import { fittedElements } from '../fitted/fitted-patch.ts'
import { inPlan, readPlan } from '../read-plan.ts'
import type { FitsAsked } from './fit-options.ts'

export type ReadFits =
  | { readonly ok: true; readonly asked: FitsAsked }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const Envelope = envelopeOf(FITS, 'plan')

/** Reads a plan that leaves something open, with every fault of it and around it at once. */
export function readFits(raw: unknown): ReadFits {
  const envelope = Envelope.safeParse(raw)
  const faults = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const sent = valueAt(raw, ['plan'])
  const read = sent === undefined ? null : readPlan(sent)
  if (read && !read.ok) faults.push(...read.faults.map(inPlan))
  if (!read?.ok || faults.length > 0) return { ok: false, faults }
  if (fittedElements(sent, read.plan).length === 0) return { ok: false, faults: [NOTHING_OPEN] }
  const {
    keepClear = false,
    margin = 0,
    turnouts = false,
  } = envelope.data as { keepClear?: boolean; margin?: number; turnouts?: boolean }
  if (!keepClear)
    return { ok: true, asked: { plan: read.plan, connections: read.connections ?? [], sent, room: null, turnouts } }
  const { cars = [] } = read.plan
  if (cars.length === 0) return { ok: false, faults: [NO_CARS] }
  // The ways are looked for with wider cars, and answered with those of the plan.
  const wide = cars.map((car) => ({ ...car, width: car.width + 2 * margin }))
  const wider = readPlan({ ...(sent as object), cars: wide })
  if (!wider.ok) return { ok: false, faults: wider.faults.map(inPlan) }
  const plan = { ...wider.plan, cars }
  return {
    ok: true,
    asked: { plan, connections: wider.connections ?? [], sent, room: { cars: wide, margin }, turnouts },
  }
}

const NO_CARS: Fault = {
  path: ['plan', 'cars'],
  code: 'missing',
  detail: 'without cars it is not known how much room to keep clear',
  hint: 'list the cars that run on the line, or leave out keepClear',
}

const NOTHING_OPEN: Fault = {
  path: ['plan', 'tracks'],
  code: 'cannot-fit',
  detail: 'nothing of this plan is left to be worked out',
  hint: 'write "fit" as the length or the angle of an element, or put in an element of kind "connect"',
}
