import { and, asc, eq, gt, gte, isNull, type SQL, sql } from 'drizzle-orm'
import type { LengthTexts } from '../shed/length-texts.ts'
import { isNothing, minus, type Stock, stockAsKept } from '../shed/stock.ts'
import { type Database, isKept } from './project-rows.ts'
import type { NeededStock, Shed } from './store.ts'
import { projectBuilds, projects, shed, shedReservations } from './tables.ts'

/** Plans read at a time. */
const BATCH = 50

const ONLY = eq(shed.id, 1)

/** Reads the shed and locks it until the transaction ends. */
export async function lockShed(tx: Database): Promise<Shed> {
  const [row] = await tx.select().from(shed).where(ONLY).for('update')
  return toShed(row!)
}

export async function readShed(db: Database): Promise<Shed> {
  const [row] = await db.select().from(shed).where(ONLY)
  return toShed(row!)
}

export async function writeShed(tx: Database, stock: Stock, lengthTexts?: LengthTexts): Promise<Shed> {
  const [row] = await tx
    .update(shed)
    // The clock may have been set back; the shed's history may not.
    .set({
      stock,
      ...(lengthTexts && { lengthTexts }),
      revision: sql`${shed.revision} + 1`,
      updatedAt: sql`greatest(now(), ${shed.updatedAt})`,
    })
    .where(ONLY)
    .returning()
  return toShed(row!)
}

function toShed({ stock, lengthTexts, revision, updatedAt }: typeof shed.$inferSelect): Shed {
  return { stock: stockAsKept(stock), lengthTexts, revision, updatedAt: updatedAt.toISOString() }
}

/** Of all reservations of a project, the one of its current revision. */
export const ofCurrentRevision = eq(
  shedReservations.revision,
  sql`(select ${projects.revision} from ${projects} where ${projects.id} = ${shedReservations.projectId})`,
)

/**
 * Reserves the stock again for this project and all younger ones, or for all projects: each gets what it needs of what the
 * older ones leave. The shed must be locked.
 */
export async function reserveStock(
  tx: Database,
  stock: Stock,
  neededStock: NeededStock | undefined,
  from: string | null,
): Promise<void> {
  const younger = from === null ? undefined : gte(shedReservations.projectId, from)
  await tx.delete(shedReservations).where(and(younger, ofCurrentRevision)).returning({ id: shedReservations.projectId })
  if (neededStock === undefined || isNothing(stock)) return
  const older = await tx.select({ stock: shedReservations.stock }).from(shedReservations).where(ofCurrentRevision)
  let free = older.reduce((left, row) => minus(left, stockAsKept(row.stock)), stock)
  let batch = await toBuild(tx, from === null ? undefined : gte(projects.id, from))
  while (batch.length > 0 && !isNothing(free)) {
    for (const { id, revision, plan } of batch) {
      const needed = neededStock(plan, free)
      if (isNothing(needed)) continue
      free = minus(free, needed)
      await tx
        .insert(shedReservations)
        .values({ projectId: id, revision, stock: needed })
        .returning({ id: shedReservations.projectId })
    }
    batch = await toBuild(tx, gt(projects.id, batch.at(-1)!.id))
  }
}

/** What is not reserved, read in one statement, so that stock and reservations are of one moment. */
export async function unreserved(db: Database): Promise<Stock> {
  const rows = await db
    .select({ stock: shed.stock, reserved: shedReservations.stock })
    .from(shed)
    .leftJoin(shedReservations, ofCurrentRevision)
    .where(ONLY)
  return rows.reduce((left, { reserved }) => minus(left, stockAsKept(reserved ?? {})), stockAsKept(rows[0]!.stock))
}

/** The next projects whose current revision is not built, the oldest first. */
function toBuild(tx: Database, where: SQL | undefined) {
  const currentBuild = and(eq(projectBuilds.projectId, projects.id), eq(projectBuilds.revision, projects.revision))
  return tx
    .select({ id: projects.id, revision: projects.revision, plan: projects.plan })
    .from(projects)
    .leftJoin(projectBuilds, currentBuild)
    .where(and(where, isKept, isNull(projectBuilds.projectId)))
    .orderBy(asc(projects.id))
    .limit(BATCH)
}
