import { inPlan, readPlan } from '../estimate/read-plan.ts'
import type { Fault } from '../measure/fault.ts'
import { faultsOf } from '../plan/reading/issues.ts'
import { envelopeOf } from '../plan/reading/schema.ts'
import { valueAt } from '../plan/reading/value-at.ts'
import { PROJECT_CONTENT } from './rows.ts'
import type { ProjectContent, StoredPlan } from './store.ts'

export type ReadProject =
  | { readonly ok: true; readonly content: ProjectContent }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const Envelope = envelopeOf(PROJECT_CONTENT, 'plan')

/** Reads a project to save. Its plan must have no faults; it is stored as it was sent. */
export function readProject(raw: unknown): ReadProject {
  const envelope = Envelope.safeParse(raw)
  const faults = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const written = valueAt(raw, ['plan'])
  const plan = written === undefined ? null : readPlan(written)
  if (plan && !plan.ok) faults.push(...plan.faults.map(inPlan))
  if (!envelope.success || faults.length > 0) return { ok: false, faults }
  const { name, notes = '' } = envelope.data
  return { ok: true, content: { name, notes, plan: written as StoredPlan } }
}
