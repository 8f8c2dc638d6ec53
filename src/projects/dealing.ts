import { and, asc, eq, gt, gte, isNull, type SQL, sql } from 'drizzle-orm'
import { isNothing, minus, type Stock, stockAsKept } from '../shed/stock.ts'
import type { Database } from './project-rows.ts'
import type { Claim, Shed } from './store.ts'
import { projectBuilds, projects, shed, shedReservations } from './tables.ts'

/** So many plans are read at a time. */
const BATCH = 50

const ONLY = eq(shed.id, 1)

/** The shed, kept from everybody else until the transaction ends. */
export async function lockShed(tx: Database): Promise<Shed> {
  const [row] = await tx.select().from(shed).where(ONLY).for('update')
  return toShed(row!)
}

export async function readShed(db: Database): Promise<Shed> {
  const [row] = await db.select().from(shed).where(ONLY)
  return toShed(row!)
}

export async function writeShed(tx: Database, stock: Stock): Promise<Shed> {
  const [row] = await tx
    .update(shed)
    // The clock may have been set back; the shed's history may not.
    .set({ stock, revision: sql`${shed.revision} + 1`, updatedAt: sql`greatest(now(), ${shed.updatedAt})` })
    .where(ONLY)
    .returning()
  return toShed(row!)
}

function toShed({ stock, revision, updatedAt }: typeof shed.$inferSelect): Shed {
  return { stock: stockAsKept(stock), revision, updatedAt: updatedAt.toISOString() }
}

/** Of all rows of a project, that of its present revision. */
export const ofPresentRevision = eq(
  shedReservations.revision,
  sql`(select ${projects.revision} from ${projects} where ${projects.id} = ${shedReservations.projectId})`,
)

/**
 * Deals what lies in the shed to the projects from this one on, or to all: each gets what it claims of what those before
 * it leave. The shed has to be locked.
 */
export async function deal(tx: Database, stock: Stock, claim: Claim | undefined, from: string | null): Promise<void> {
  const younger = from === null ? undefined : gte(shedReservations.projectId, from)
  await tx.delete(shedReservations).where(and(younger, ofPresentRevision)).returning({ id: shedReservations.projectId })
  if (claim === undefined || isNothing(stock)) return
  const older = await tx.select({ stock: shedReservations.stock }).from(shedReservations).where(ofPresentRevision)
  let free = older.reduce((left, row) => minus(left, stockAsKept(row.stock)), stock)
  let batch = await toBuild(tx, from === null ? undefined : gte(projects.id, from))
  while (batch.length > 0 && !isNothing(free)) {
    for (const { id, revision, plan } of batch) {
      const claimed = claim(plan, free)
      if (isNothing(claimed)) continue
      free = minus(free, claimed)
      await tx
        .insert(shedReservations)
        .values({ projectId: id, revision, stock: claimed })
        .returning({ id: shedReservations.projectId })
    }
    batch = await toBuild(tx, gt(projects.id, batch.at(-1)!.id))
  }
}

/** The next projects whose present revision is not built, the oldest first. */
function toBuild(tx: Database, where: SQL | undefined) {
  const presentBuild = and(eq(projectBuilds.projectId, projects.id), eq(projectBuilds.revision, projects.revision))
  return tx
    .select({ id: projects.id, revision: projects.revision, plan: projects.plan })
    .from(projects)
    .leftJoin(projectBuilds, presentBuild)
    .where(and(where, isNull(projectBuilds.projectId)))
    .orderBy(asc(projects.id))
    .limit(BATCH)
}
