import { z } from '@hono/zod-openapi'
import type { Project, ProjectSummary, RevisionSummary } from '../../projects/store.ts'
import type { Same } from './same-type.ts'

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
