import { z } from '@hono/zod-openapi'
import type { Fault } from '../../measure/fault.ts'
import type { Project, ProjectContent, ProjectSummary, RevisionSummary, StoredPlan } from '../../projects/store.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { PlanSchema } from './plan.ts'
import { readPlan } from './read-plan.ts'
import type { Same } from './same-type.ts'
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

const moment = z.iso.datetime().openapi({ description: 'RFC 3339, UTC.' })
const revision = z.int().min(1)

const summary = {
  id: z.uuid(),
  name: z.string(),
  notes: z.string(),
  revision: revision.openapi({ description: '1 for a new project, one more with each replacement.' }),
  createdAt: moment,
  updatedAt: moment,
}

const ProjectSummarySchema = z.object(summary).openapi('ProjectSummary')

export const ProjectSchema = z
  .object({
    ...summary,
    plan: z.record(z.string(), z.unknown()).openapi({ description: 'The plan as it was written.' }),
  })
  .openapi('Project')

export const ProjectPageSchema = z
  .object({
    items: z.array(ProjectSummarySchema),
    next: z.string().nullable().openapi({ description: 'The cursor of the next page; null on the last.' }),
  })
  .openapi('ProjectPage')

const RevisionSchema = z.object({ revision, createdAt: moment, name: z.string() }).openapi('Revision')

export const RevisionsSchema = z.object({ items: z.array(RevisionSchema) }).openapi('Revisions')

true satisfies Same<z.output<typeof ProjectSchema>, Project>
true satisfies Same<z.output<typeof ProjectSummarySchema>, ProjectSummary>
true satisfies Same<z.output<typeof RevisionSchema>, RevisionSummary>
