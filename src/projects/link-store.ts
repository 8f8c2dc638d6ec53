import { and, asc, eq, getTableColumns, isNull, lt, or, sql } from 'drizzle-orm'
import { isProjectId, newId } from './ids.ts'
import { type Database, isKept, keptProject, projectIsKept, toProject } from './project-rows.ts'
import { MOST_LINKS, type ProjectLink, type ProjectStore } from './store.ts'
import { toStoreError } from './store-error.ts'
import { projectLinks, projects } from './tables.ts'

/** A spreadsheet reads many tables at once; the use of its link is recorded at most this often. */
const RECORDED_EVERY = sql`interval '1 minute'`

type LinkStore = Pick<ProjectStore, 'links' | 'addLink' | 'removeLink' | 'linked'>

/** The part of the store for the links of projects. */
export function linkStore(db: Database, run: <T>(work: () => Promise<T>) => Promise<T>): LinkStore {
  return {
    links: (id) =>
      run(async () => {
        if (!isProjectId(id)) return null
        const rows = await db
          .select()
          .from(projectLinks)
          .where(eq(projectLinks.projectId, id))
          .orderBy(asc(projectLinks.id))
        const [project] = await db.select({ id: projects.id }).from(projects).where(keptProject(id))
        return project ? rows.map(toLink) : null
      }),

    addLink: (id, label, tokenHash) =>
      run(async () => {
        if (!isProjectId(id)) return { outcome: 'missing' } as const
        return db.transaction(async (tx) => {
          // The lock makes links that are added at the same time wait, so that all are counted.
          const [project] = await tx.select({ id: projects.id }).from(projects).where(keptProject(id)).for('update')
          if (!project) return { outcome: 'missing' } as const
          const links = await tx
            .select({ id: projectLinks.id })
            .from(projectLinks)
            .where(eq(projectLinks.projectId, id))
            .limit(MOST_LINKS)
          if (links.length >= MOST_LINKS) return { outcome: 'too-many' } as const
          const [row] = await tx
            .insert(projectLinks)
            .values({ id: newId(), projectId: id, label, tokenHash, createdAt: sql`now()` })
            .returning()
          return { outcome: 'done', value: toLink(row!) } as const
        })
      }),

    removeLink: (id, link) =>
      run(async () => {
        if (!isProjectId(id) || !isProjectId(link)) return false
        const removed = await db
          .delete(projectLinks)
          .where(and(eq(projectLinks.id, link), eq(projectLinks.projectId, id), projectIsKept(db, id)))
          .returning({ id: projectLinks.id })
        return removed.length > 0
      }),

    linked: (tokenHash) =>
      run(async () => {
        const [found] = await db
          .select({ link: projectLinks.id, ...getTableColumns(projects) })
          .from(projectLinks)
          .innerJoin(projects, eq(projects.id, projectLinks.projectId))
          .where(and(eq(projectLinks.tokenHash, tokenHash), isKept))
        if (!found) return null
        const { link, ...project } = found
        await recordUse(db, link)
        return toProject(project)
      }),
  }
}

/** Where nothing can be written, the link works all the same. */
async function recordUse(db: Database, link: string): Promise<void> {
  const longAgo = lt(projectLinks.lastUsedAt, sql`now() - ${RECORDED_EVERY}`)
  try {
    await db
      .update(projectLinks)
      .set({ lastUsedAt: sql`now()` })
      .where(and(eq(projectLinks.id, link), or(isNull(projectLinks.lastUsedAt), longAgo)))
      .returning({ id: projectLinks.id })
  } catch (error) {
    const fault = toStoreError(error)
    if (fault.kind !== 'full' && fault.kind !== 'unavailable') throw fault
  }
}

function toLink({ id, label, createdAt, lastUsedAt }: typeof projectLinks.$inferSelect): ProjectLink {
  return { id, label, createdAt: createdAt.toISOString(), lastUsedAt: lastUsedAt?.toISOString() ?? null }
}
