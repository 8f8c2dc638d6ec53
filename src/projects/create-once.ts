import { and, eq, getTableColumns, lt, sql } from 'drizzle-orm'
import type { PgColumn } from 'drizzle-orm/pg-core'
import { newId } from './ids.ts'
import { type Database, keptProject, toProject } from './project-rows.ts'
import type { CreatedOnce, Project } from './store.ts'
import { StoreError } from './store-error.ts'
import { creationKeys, projectRevisions, projects } from './tables.ts'

/** How long the key of a creation is kept. */
export const KEY_KEPT_HOURS = 24

/** A claim this old without a project is of a process that ended before it answered. */
const ABANDONED = sql`${creationKeys.projectId} is null and ${creationKeys.claimedAt} < now() - interval '1 minute'`
const KEY_EXPIRED_BEFORE = sql.raw(`now() - interval '${KEY_KEPT_HOURS} hours'`)

/**
 * Creates a project once for a key. The key is claimed in a statement of its own, so that a second request with it is
 * refused while the first is at work; the project is noted in the transaction that creates it, so that there is never
 * one without the other. A claim that was taken over meanwhile undoes that transaction.
 *
 * @param bodyHash tells requests with the same key apart
 * @param create runs in the transaction
 */
export async function createOnce(
  db: Database,
  key: string,
  bodyHash: string,
  create: (tx: Database) => Promise<Project>,
): Promise<CreatedOnce> {
  const claim = newId()
  const row = await claimKey(db, key, bodyHash, claim)
  if (row.claim !== claim) return answerBefore(db, row, bodyHash)
  const mine = and(eq(creationKeys.key, key), eq(creationKeys.claim, claim))
  try {
    const value = await db.transaction(async (tx) => {
      const project = await create(tx)
      const noted = await tx.update(creationKeys).set({ projectId: project.id }).where(mine).returning()
      if (noted.length === 0) throw new StoreError('unavailable', 'Another request has taken over this key.')
      return project
    })
    return { outcome: 'done', value }
  } catch (error) {
    // The same key may then be tried again at once. If this fails too, the claim is given up after a minute.
    await db
      .delete(creationKeys)
      .where(mine)
      .returning()
      .catch(() => {})
    throw error
  }
}

/** The row of the key: with this claim, or as another request left it. One statement, so that it is of one moment. */
async function claimKey(db: Database, key: string, bodyHash: string, claim: string) {
  await db
    .delete(creationKeys)
    .where(lt(creationKeys.claimedAt, KEY_EXPIRED_BEFORE))
    .returning({ key: creationKeys.key })
  const unlessInUse = (column: PgColumn) =>
    sql`case when ${ABANDONED} then excluded.${sql.identifier(column.name)} else ${column} end`
  const [row] = await db
    .insert(creationKeys)
    .values({ key, bodyHash, claim, claimedAt: sql`now()` })
    .onConflictDoUpdate({
      target: creationKeys.key,
      set: {
        bodyHash: unlessInUse(creationKeys.bodyHash),
        claim: unlessInUse(creationKeys.claim),
        claimedAt: unlessInUse(creationKeys.claimedAt),
      },
    })
    .returning()
  return row!
}

/** The answer to a key that is already in use: the project as it was created. */
async function answerBefore(
  db: Database,
  before: typeof creationKeys.$inferSelect,
  bodyHash: string,
): Promise<CreatedOnce> {
  if (before.bodyHash !== bodyHash) return { outcome: 'other-body' }
  if (before.projectId === null) return { outcome: 'in-progress' }
  const [first] = await db
    .select(getTableColumns(projectRevisions))
    .from(projectRevisions)
    .innerJoin(projects, eq(projects.id, projectRevisions.projectId))
    .where(and(keptProject(before.projectId), eq(projectRevisions.revision, 1)))
  if (first === undefined) return { outcome: 'missing' }
  const { projectId: id, createdAt, ...rest } = first
  return { outcome: 'done', value: toProject({ id, ...rest, createdAt, updatedAt: createdAt }) }
}
