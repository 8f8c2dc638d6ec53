import { and, asc, eq } from 'drizzle-orm'
import { textsOfStock } from '../shed/length-texts.ts'
import { minus, NOTHING, plus, stockAsKept, tidy } from '../shed/stock.ts'
import { isProjectId } from './ids.ts'
import {
  atExpectedRevision,
  type Database,
  isRevision,
  keptProject,
  projectIsKept,
  reasonNotWritten,
  toProject,
} from './project-rows.ts'
import { usePurchases } from './purchase-store.ts'
import { lockShed, ofCurrentRevision, readShed, reserveStock, unreserved, writeShed } from './reserving.ts'
import type { Build, BuildWork, Built, Expected, ProjectStore } from './store.ts'
import { projectBuilds, projects, shedReservations } from './tables.ts'

type Run = <T>(work: () => Promise<T>) => Promise<T>
type ShedPart = Pick<ProjectStore, 'shed' | 'freeStock' | 'restock' | 'reservations' | 'reserved' | 'build' | 'builds'>

/** The part of the store for the shed. */
export function shedStore(db: Database, run: Run): ShedPart {
  return {
    shed: () => run(() => readShed(db)),

    freeStock: () => run(() => unreserved(db)),

    restock: (stock, expected, neededStock, lengthTexts) =>
      run(() =>
        db.transaction(async (tx) => {
          const { revision, ...before } = await lockShed(tx)
          if (!isExpected(revision, expected)) return { outcome: 'stale', revision }
          const kept = tidy(stock)
          const texts = textsOfStock(lengthTexts ?? {}, before.lengthTexts, kept)
          const value = await writeShed(tx, kept, texts)
          await reserveStock(tx, value.stock, neededStock, null)
          return { outcome: 'done', value }
        }),
      ),

    reservations: () =>
      run(async () => {
        const rows = await db
          .select({ project: projects.id, name: projects.name, stock: shedReservations.stock })
          .from(shedReservations)
          .innerJoin(projects, eq(projects.id, shedReservations.projectId))
          .where(ofCurrentRevision)
          .orderBy(asc(shedReservations.projectId))
        return rows.map((row) => ({ ...row, stock: stockAsKept(row.stock) }))
      }),

    reserved: (id, revision) =>
      run(async () => {
        if (!isProjectId(id) || !isRevision(revision)) return NOTHING
        const isKept = projectIsKept(db, id)
        const [built] = await db
          .select()
          .from(projectBuilds)
          .where(and(ofBuild(id, revision), isKept))
        if (built) return stockAsKept(built.taken)
        const [reservation] = await db
          .select()
          .from(shedReservations)
          .where(and(ofReservation(id, revision), isKept))
        return stockAsKept(reservation?.stock ?? {})
      }),

    build: (id, expected, work, neededStock) =>
      run(async () => {
        if (!isProjectId(id)) return { outcome: 'missing' }
        type Outcome = Built<Reason<typeof work>>
        return db.transaction(async (tx): Promise<Outcome> => {
          const { stock } = await lockShed(tx)
          const [row] = await tx.select().from(projects).where(atExpectedRevision(id, expected))
          if (row === undefined) return reasonNotWritten(tx, id)
          const [before] = await tx.select().from(projectBuilds).where(ofBuild(id, row.revision))
          if (before) return { outcome: 'built-before', build: toBuild(before) }
          const [reservation] = await tx.select().from(shedReservations).where(ofReservation(id, row.revision))
          const reserved = stockAsKept(reservation?.stock ?? {})
          const done = work(toProject(row), reserved)
          if (!done.ok) return { outcome: 'refused', reason: done.reason }
          // Throws if more is taken than was reserved: the rest belongs to others.
          minus(reserved, done.taken)
          const left = await writeShed(tx, plus(minus(stock, done.taken), done.returned))
          // Nothing is reserved for a built revision; what it took is stored with the build.
          await tx.delete(shedReservations).where(ofReservation(id, row.revision)).returning()
          await usePurchases(tx, id)
          const [built] = await tx
            .insert(projectBuilds)
            .values({
              projectId: id,
              revision: row.revision,
              // To the millisecond, like the times of the database.
              builtAt: new Date(left.updatedAt),
              taken: done.taken,
              returned: done.returned,
            })
            .returning()
          await reserveStock(tx, left.stock, neededStock, null)
          return { outcome: 'done', value: toBuild(built!) }
        })
      }),

    builds: (id) =>
      run(async () => {
        if (!isProjectId(id)) return null
        const rows = await db
          .select()
          .from(projectBuilds)
          .where(eq(projectBuilds.projectId, id))
          .orderBy(asc(projectBuilds.revision))
        const [project] = await db.select({ id: projects.id }).from(projects).where(keptProject(id))
        return project === undefined ? null : rows.map(toBuild)
      }),
  }
}

type Reason<Work> = Work extends BuildWork<infer F> ? F : never

const ofBuild = (id: string, revision: number) =>
  and(eq(projectBuilds.projectId, id), eq(projectBuilds.revision, revision))
const ofReservation = (id: string, revision: number) =>
  and(eq(shedReservations.projectId, id), eq(shedReservations.revision, revision))

function isExpected(revision: number, expected: Expected): boolean {
  return expected === 'any' || expected.includes(revision)
}

function toBuild({ revision, builtAt, taken, returned }: typeof projectBuilds.$inferSelect): Build {
  return { revision, builtAt: builtAt.toISOString(), taken: stockAsKept(taken), returned: stockAsKept(returned) }
}
