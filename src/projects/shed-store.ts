import { and, asc, eq } from 'drizzle-orm'
import { minus, NOTHING, plus, stockAsKept, tidy } from '../shed/stock.ts'
import { deal, lockShed, ofPresentRevision, readShed, writeShed } from './dealing.ts'
import { isProjectId } from './ids.ts'
import { asExpected, type Database, isRevision, toProject, unwritten } from './project-rows.ts'
import type { Build, BuildWork, Built, Expected, ProjectStore } from './store.ts'
import { projectBuilds, projects, shedReservations } from './tables.ts'

type Ask = <T>(work: () => Promise<T>) => Promise<T>
type ShedPart = Pick<ProjectStore, 'shed' | 'restock' | 'reservations' | 'reserved' | 'build' | 'builds'>

/** The part of the store that keeps the shed. */
export function shedStore(db: Database, ask: Ask): ShedPart {
  return {
    shed: () => ask(() => readShed(db)),

    restock: (stock, expected, claim) =>
      ask(() =>
        db.transaction(async (tx) => {
          const { revision } = await lockShed(tx)
          if (!isExpected(revision, expected)) return { outcome: 'stale', revision }
          const value = await writeShed(tx, tidy(stock))
          await deal(tx, value.stock, claim, null)
          return { outcome: 'done', value }
        }),
      ),

    reservations: () =>
      ask(async () => {
        const rows = await db
          .select({ project: projects.id, name: projects.name, stock: shedReservations.stock })
          .from(shedReservations)
          .innerJoin(projects, eq(projects.id, shedReservations.projectId))
          .where(ofPresentRevision)
          .orderBy(asc(shedReservations.projectId))
        return rows.map((row) => ({ ...row, stock: stockAsKept(row.stock) }))
      }),

    reserved: (id, revision) =>
      ask(async () => {
        if (!isProjectId(id) || !isRevision(revision)) return NOTHING
        const [built] = await db.select().from(projectBuilds).where(ofBuild(id, revision))
        if (built) return stockAsKept(built.taken)
        const [dealt] = await db.select().from(shedReservations).where(ofReservation(id, revision))
        return stockAsKept(dealt?.stock ?? {})
      }),

    build: (id, expected, work, claim) =>
      ask(async () => {
        if (!isProjectId(id)) return { outcome: 'missing' }
        type Outcome = Built<Reason<typeof work>>
        return db.transaction(async (tx): Promise<Outcome> => {
          const { stock } = await lockShed(tx)
          const [row] = await tx.select().from(projects).where(asExpected(id, expected))
          if (row === undefined) return unwritten(tx, id)
          const [before] = await tx.select().from(projectBuilds).where(ofBuild(id, row.revision))
          if (before) return { outcome: 'built-before', build: toBuild(before) }
          const [reservation] = await tx.select().from(shedReservations).where(ofReservation(id, row.revision))
          const reserved = stockAsKept(reservation?.stock ?? {})
          const done = work(toProject(row), reserved)
          if (!done.ok) return { outcome: 'refused', reason: done.reason }
          // What is dealt to others is theirs.
          minus(reserved, done.taken)
          const left = await writeShed(tx, plus(minus(stock, done.taken), done.returned))
          // Once it is built nothing is reserved for it; what it took stands with the build.
          await tx.delete(shedReservations).where(ofReservation(id, row.revision)).returning()
          const [built] = await tx
            .insert(projectBuilds)
            .values({
              projectId: id,
              revision: row.revision,
              // As exact as the moments of the database.
              builtAt: new Date(left.updatedAt),
              taken: done.taken,
              returned: done.returned,
            })
            .returning()
          await deal(tx, left.stock, claim, null)
          return { outcome: 'done', value: toBuild(built!) }
        })
      }),

    builds: (id) =>
      ask(async () => {
        if (!isProjectId(id)) return null
        const rows = await db
          .select()
          .from(projectBuilds)
          .where(eq(projectBuilds.projectId, id))
          .orderBy(asc(projectBuilds.revision))
        if (rows.length > 0) return rows.map(toBuild)
        const [project] = await db.select({ id: projects.id }).from(projects).where(eq(projects.id, id))
        return project === undefined ? null : []
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
