import { and, eq, isNotNull, isNull, sql } from 'drizzle-orm'
import { isProjectId } from './ids.ts'
import { type Database, toProject } from './project-rows.ts'
import { lockShed, reserveStock } from './reserving.ts'
import type { ProjectStore } from './store.ts'
import { projects } from './tables.ts'

/** How long a deleted project can be restored. */
const RESTORABLE_DAYS = 30

/** The latest time that was recorded here. A clock that shows an earlier one has been set back, or is not set yet. */
const LATEST_KNOWN = sql`greatest((select max(p.updated_at) from projects p), (select max(p.deleted_at) from projects p), (select s.updated_at from shed s))`

/** When a project is deleted: never before what was recorded earlier, so that it does not look older than it is. */
export const DELETED_NOW = sql`greatest(now(), ${LATEST_KNOWN})`

const LONG_AGO = sql`${projects.deletedAt} < now() - ${sql.raw(`interval '${RESTORABLE_DAYS} days'`)} and now() >= ${LATEST_KNOWN}`

type Run = <T>(work: () => Promise<T>) => Promise<T>

/** The part of the store for projects that were deleted. */
export function deletedStore(db: Database, run: Run): Pick<ProjectStore, 'restore' | 'purge'> {
  return {
    restore: (id, neededStock) =>
      run(async () => {
        if (!isProjectId(id)) return null
        return db.transaction(async (tx) => {
          const { stock } = await lockShed(tx)
          const [restored] = await tx
            .update(projects)
            .set({ deletedAt: null })
            .where(and(eq(projects.id, id), isNotNull(projects.deletedAt)))
            .returning()
          if (restored !== undefined) {
            await reserveStock(tx, stock, neededStock, id)
            return toProject(restored)
          }
          const [present] = await tx
            .select()
            .from(projects)
            .where(and(eq(projects.id, id), isNull(projects.deletedAt)))
          return present === undefined ? null : toProject(present)
        })
      }),

    purge: () => run(async () => (await db.delete(projects).where(LONG_AGO).returning({ id: projects.id })).length),
  }
}
