import { and, eq, exists, inArray, isNull } from 'drizzle-orm'
import type { PgDatabase, PgQueryResultHKT } from 'drizzle-orm/pg-core'
import type { Expected, Project, ProjectSummary, Written } from './store.ts'
import { projects } from './tables.ts'

/** Either driver's database, or a transaction on it. */
export type Database = PgDatabase<PgQueryResultHKT, Record<string, never>>

/** The largest number that PostgreSQL's `integer`, the column's type, can hold. */
const REVISION_MAX = 2 ** 31 - 1
type ProjectRow = typeof projects.$inferSelect

function fieldsOf(row: Omit<ProjectRow, 'plan' | 'deletedAt'>): Omit<Project, 'plan'> {
  return {
    id: row.id,
    name: row.name,
    notes: row.notes,
    revision: row.revision,
    createdAt: row.createdAt.toISOString(),
    updatedAt: row.updatedAt.toISOString(),
  }
}

export function toSummary(row: Omit<ProjectRow, 'plan'> & Pick<ProjectSummary, 'builtRevision'>): ProjectSummary {
  return {
    ...fieldsOf(row),
    builtRevision: row.builtRevision,
    deletedAt: row.deletedAt?.toISOString() ?? null,
  }
}

export function toProject(row: Omit<ProjectRow, 'deletedAt'>): Project {
  return { ...fieldsOf(row), plan: row.plan }
}

export function isRevision(revision: number): boolean {
  return Number.isSafeInteger(revision) && revision >= 1 && revision <= REVISION_MAX
}

/** Not deleted. */
export const isKept = isNull(projects.deletedAt)

/** The project with this id, unless it is deleted. */
export function keptProject(id: string) {
  return and(eq(projects.id, id), isKept)
}

/** For conditions on rows of a project. */
export function projectIsKept(db: Database, id: string) {
  return exists(db.select({ id: projects.id }).from(projects).where(keptProject(id)))
}

/** One project, provided that it is at a revision that the client expects. */
export function atExpectedRevision(id: string, expected: Expected) {
  const named = keptProject(id)
  return expected === 'any' ? named : and(named, inArray(projects.revision, expected.filter(isRevision)))
}

/** Why a conditional statement changed no row. */
export async function reasonNotWritten(tx: Database, id: string): Promise<Written<never>> {
  const [current] = await tx.select({ revision: projects.revision }).from(projects).where(keptProject(id))
  return current === undefined ? { outcome: 'missing' } : { outcome: 'stale', revision: current.revision }
}
