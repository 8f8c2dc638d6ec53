import { and, asc, desc, eq, getTableColumns, isNotNull, lt, sql } from 'drizzle-orm'
import { createOnce } from './create-once.ts'
import { DELETED_NOW, deletedStore } from './deleted.ts'
import { type CopyRows, copyEverything, exportEverything, importEverything, rowsInTransaction } from './everything.ts'
import { finishedCardStore } from './finished-cards.ts'
import { isProjectId, newId } from './ids.ts'
import { linkStore } from './link-store.ts'
import {
  atExpectedRevision,
  type Database,
  isKept,
  isRevision,
  keptProject,
  reasonNotWritten,
  toProject,
  toSummary,
} from './project-rows.ts'
import { purchaseStore } from './purchase-store.ts'
import { lockShed, reserveStock } from './reserving.ts'
import { shedStore } from './shed-store.ts'
import type { NeededStock, Project, ProjectContent, ProjectStore, Written } from './store.ts'
import { StoreError, toStoreError } from './store-error.ts'
import { projectRevisions, projects } from './tables.ts'

/** The latest built revision of the project in the row; by name, because drizzle leaves out the table of a column. */
const LAST_BUILT = sql<number | null>`(select max(b.revision) from project_builds b where b.project_id = projects.id)`

/** A readiness check that takes longer fails. */
const PING_LIMIT_MS = 2_000
/** Any other call that takes longer fails, though a server may still finish it. */
const CALL_LIMIT_MS = 9_500
/** Reading or writing everything there is takes longer. */
const WHOLE_LIMIT_MS = 300_000

/** What lies under a database. */
export interface Medium {
  /** Resolves when everything committed before the call is safe; nothing is answered before that. */
  settled(): Promise<void>
  /** Throws a `StoreError` while nothing can be written. */
  refuse(): void
  /** Copies all rows; by default in a transaction. */
  copyRows?: CopyRows
}

const LASTING: Medium = { settled: async () => {}, refuse: () => {} }

/**
 * The store on an open, migrated database. `close` closes the database; after that every call is refused as `unavailable`.
 * Inside a transaction every statement goes through `tx`: the embedded database has one connection, so a statement on `db`
 * would wait for the transaction, which waits for it.
 */
export function databaseStore(
  db: Database,
  close: () => Promise<void>,
  { settled, refuse, copyRows = rowsInTransaction(db) }: Medium = LASTING,
): ProjectStore {
  let closing: Promise<void> | null = null

  async function run<T>(work: () => Promise<T>, limitMs = CALL_LIMIT_MS): Promise<T> {
    if (closing !== null) throw new StoreError('unavailable', 'The database is closed.')
    try {
      return await withinLimit(settledAfter(work), limitMs)
    } catch (error) {
      throw toStoreError(error)
    }
  }

  async function settledAfter<T>(work: () => Promise<T>): Promise<T> {
    const result = await work()
    await settled()
    return result
  }

  return {
    create: (content, neededStock) =>
      run(() => {
        refuseUnstorable(content)
        return db.transaction((tx) => createProject(tx, content, neededStock))
      }),

    createOnce: (key, bodyHash, content, neededStock) =>
      run(() => {
        refuseUnstorable(content)
        return createOnce(db, key, bodyHash, (tx) => createProject(tx, content, neededStock))
      }),

    list: async ({ limit, after, deleted = false }) => {
      if (!Number.isSafeInteger(limit) || limit < 1) throw new RangeError('a page holds at least one project')
      if (after !== null && !isProjectId(after)) throw new RangeError('a page starts after the id of a project')
      return run(async () => {
        const { plan: _, ...columns } = getTableColumns(projects)
        const rows = await db
          .select({ ...columns, builtRevision: LAST_BUILT })
          .from(projects)
          .where(
            and(deleted ? isNotNull(projects.deletedAt) : isKept, after === null ? undefined : lt(projects.id, after)),
          )
          .orderBy(desc(projects.id))
          .limit(limit + 1)
        const items = rows.slice(0, limit).map(toSummary)
        return { items, next: rows.length > limit ? items.at(-1)!.id : null }
      })
    },

    get: (id) =>
      run(async () => {
        if (!isProjectId(id)) return null
        const [row] = await db.select().from(projects).where(keptProject(id))
        return row === undefined ? null : toProject(row)
      }),

    replace: (id, content, expected, neededStock) =>
      run(async () => {
        refuseUnstorable(content)
        if (!isProjectId(id)) return { outcome: 'missing' }
        return db.transaction(async (tx): Promise<Written<Project>> => {
          const { stock } = await lockShed(tx)
          const [row] = await tx
            .update(projects)
            .set({
              ...contentColumns(content),
              revision: sql`${projects.revision} + 1`,
              // The clock may have been set back; the history of a project must not go back.
              updatedAt: sql`greatest(now(), ${projects.updatedAt})`,
            })
            .where(atExpectedRevision(id, expected))
            .returning()
          if (row === undefined) return reasonNotWritten(tx, id)
          const project = await saveRevision(tx, toProject(row))
          await reserveStock(tx, stock, neededStock, project.id)
          return { outcome: 'done', value: project }
        })
      }),

    remove: (id, expected, neededStock) =>
      run(async () => {
        if (!isProjectId(id)) return { outcome: 'missing' }
        return db.transaction(async (tx): Promise<Written<null>> => {
          const { stock } = await lockShed(tx)
          const [row] = await tx
            .update(projects)
            .set({ deletedAt: DELETED_NOW })
            .where(atExpectedRevision(id, expected))
            .returning({ id: projects.id })
          if (row === undefined) return reasonNotWritten(tx, id)
          await reserveStock(tx, stock, neededStock, row.id)
          return { outcome: 'done', value: null }
        })
      }),

    revisions: (id) =>
      run(async () => {
        if (!isProjectId(id)) return null
        const rows = await db
          .select({
            revision: projectRevisions.revision,
            createdAt: projectRevisions.createdAt,
            name: projectRevisions.name,
          })
          .from(projectRevisions)
          .innerJoin(projects, eq(projects.id, projectRevisions.projectId))
          .where(keptProject(id))
          .orderBy(asc(projectRevisions.revision))
        // Every project has a first revision, so one without any does not exist.
        return rows.length === 0 ? null : rows.map((row) => ({ ...row, createdAt: row.createdAt.toISOString() }))
      }),

    revision: (id, revision) =>
      run(async () => {
        if (!isProjectId(id) || !isRevision(revision)) return null
        const [row] = await db
          .select({
            id: projects.id,
            name: projectRevisions.name,
            notes: projectRevisions.notes,
            plan: projectRevisions.plan,
            revision: projectRevisions.revision,
            createdAt: projects.createdAt,
            updatedAt: projectRevisions.createdAt,
          })
          .from(projectRevisions)
          .innerJoin(projects, eq(projects.id, projectRevisions.projectId))
          .where(and(keptProject(id), eq(projectRevisions.revision, revision)))
        return row === undefined ? null : toProject(row)
      }),

    ...deletedStore(db, run),
    ...shedStore(db, run),
    ...purchaseStore(db, run),
    ...finishedCardStore(db, run),
    ...linkStore(db, run),

    exportAll: () => run(() => exportEverything(copyRows), WHOLE_LIMIT_MS),

    copyTo: (write) => run(() => copyEverything(copyRows, write), WHOLE_LIMIT_MS),

    importAll: (lines, how) => run(() => importEverything(db, lines, how), WHOLE_LIMIT_MS),

    ping: () =>
      run(async () => {
        refuse()
        await withinLimit(db.execute(sql`select 1`), PING_LIMIT_MS)
      }),

    close: () => {
      closing ??= close()
      return closing
    },
  }
}

function contentColumns({ name, notes, plan }: ProjectContent) {
  return { name, notes, plan }
}

async function createProject(tx: Database, content: ProjectContent, neededStock: NeededStock | undefined) {
  const { stock } = await lockShed(tx)
  const [row] = await tx
    .insert(projects)
    .values({
      id: newId(),
      ...contentColumns(content),
      revision: 1,
      createdAt: sql`now()`,
      updatedAt: sql`now()`,
    })
    .returning()
  const project = await saveRevision(tx, toProject(row!))
  await reserveStock(tx, stock, neededStock, project.id)
  return project
}

async function saveRevision(tx: Database, project: Project): Promise<Project> {
  await tx
    .insert(projectRevisions)
    .values({
      projectId: project.id,
      revision: project.revision,
      ...contentColumns(project),
      createdAt: new Date(project.updatedAt),
    })
    .returning({ revision: projectRevisions.revision })
  return project
}

/** PostgreSQL's text cannot hold NUL, and UTF-8 no half of a surrogate pair: the driver would store U+FFFD instead. */
const UNSTORABLE = /[\0\p{Surrogate}]/u

function refuseUnstorable({ name, notes }: ProjectContent): void {
  if (UNSTORABLE.test(name) || UNSTORABLE.test(notes))
    throw new StoreError('refused', 'Names and notes must not contain NUL or an unpaired surrogate.')
}

async function withinLimit<T>(answer: PromiseLike<T>, limitMs: number): Promise<T> {
  let timer: NodeJS.Timeout | undefined
  const tooLate = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new StoreError('unavailable', 'The database does not answer.')), limitMs)
  })
  try {
    return await Promise.race([answer, tooLate])
  } finally {
    clearTimeout(timer)
  }
}
