import { z } from '@hono/zod-openapi'
import type { Fault } from '../../measure/fault.ts'
import type { ProjectContent, StoredPlan } from '../../projects/store.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { PlanSchema } from './plan.ts'
import { readPlan } from './read-plan.ts'
import { nameLeaf, textLeaf } from './words.ts'

const content = {
  name: nameLeaf('ProjectName', 200, 'The name of a project; several may share one.'),
  notes: textLeaf('ProjectNotes', 10_000, 'Free text.').optional(),
}

/** What a client writes, as the OpenAPI document shows it. */
export const ProjectContentSchema = fields({ ...content, plan: PlanSchema }).openapi('ProjectContent')

const Envelope = fields({ ...content, plan: z.unknown() })

export type ReadProject =
  | { readonly ok: true; readonly content: ProjectContent }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a project to be written. Its plan has to be one that can be read; it is kept as it was written. */
export function readProject(raw: unknown): ReadProject {
  const envelope = Envelope.safeParse(raw)
  const faults = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const written = (raw as { plan?: unknown } | null)?.plan
  const plan = written === undefined ? null : readPlan(written)
  if (plan && !plan.ok) faults.push(...plan.faults.map((fault) => inPlan(fault)))
  if (!envelope.success || faults.length > 0) return { ok: false, faults }
  const { name, notes = '' } = envelope.data
  return { ok: true, content: { name, notes, plan: written as StoredPlan } }
}

/** A fault of a plan, told from where the plan stands in a project. */
export function inPlan(fault: Fault): Fault {
  return { ...fault, path: ['plan', ...fault.path] }
}
