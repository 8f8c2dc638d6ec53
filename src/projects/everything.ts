import { promisify } from 'node:util'
import { gunzip, gzip } from 'node:zlib'
import { sql } from 'drizzle-orm'
import type { Everything, Imported, ImportFault, ProjectChange, Write } from './everything-types.ts'
import { changeLine, endLine, headLine, readJournalLine } from './journal/journal-lines.ts'
import { latestMigration } from './migrations.ts'
import type { Database } from './project-rows.ts'
import { type Query, rowsOf, type Table, tablesOf } from './rows-of-tables.ts'

const pack = promisify(gzip)

/** The same for every export, so that the same rows give the same file. */
const HEAD = { id: 'export', ends: true } as const

/** Writes the lines of all rows. */
export type CopyRows = (write: Write) => Promise<void>

/** Everything there is at one moment, in the form of a journal without changes (journal-lines.ts). */
export async function copyEverything(copyRows: CopyRows, write: Write): Promise<void> {
  await write(headLine({ ...HEAD, migration: latestMigration() }))
  await copyRows(write)
  await write(endLine())
}

/** On a server, one transaction sees the rows of one moment and keeps nobody from changing them. */
export function rowsInTransaction(db: Database): CopyRows {
  return (write) =>
    db.transaction(
      async (tx) => {
        const query = queryOf(tx)
        for await (const rows of rowsOf(await tablesOf(query), query)) await write(rows.map(changeLine).join(''))
      },
      { isolationLevel: 'repeatable read', accessMode: 'read only' },
    )
}

/** Everything in memory, packed. */
export async function exportEverything(copyRows: CopyRows): Promise<Everything> {
  const parts: Buffer[] = []
  await copyEverything(copyRows, async (lines) => void parts.push(await pack(lines)))
  return parts
}

export const unpackPart = promisify(gunzip)

/**
 * Replaces everything by what an export says, in one transaction.
 *
 * @param lines without line breaks; a journal of the embedded database is read as well
 * @param dryRun nothing is changed
 * @param replace whether projects that are there may be replaced
 */
export async function importEverything(
  db: Database,
  lines: AsyncIterable<string>,
  { dryRun, replace }: { readonly dryRun: boolean; readonly replace: boolean },
): Promise<Imported | ImportFault> {
  let outcome: Imported | ImportFault | null = null
  try {
    await db.transaction(async (tx) => {
      outcome = await written(tx, lines, replace)
      if ('kind' in outcome || dryRun) throw new Undone()
    })
  } catch (error) {
    if (!(error instanceof Undone)) throw error
  }
  return outcome!
}

/** Rolls the transaction back. */
class Undone extends Error {}

async function written(tx: Database, lines: AsyncIterable<string>, replace: boolean): Promise<Imported | ImportFault> {
  const query = queryOf(tx)
  const tables = await tablesOf(query)
  const before = await projectsIn(query)
  // Those that are deleted and can be restored count as well.
  const [all] = await query<{ count: string }>('select count(*)::text as count from projects')
  if (Number(all!.count) > 0 && !replace) return { kind: 'not-empty', projects: Number(all!.count) }
  // A table that others point to comes after them here, and before them when rows are written.
  for (const { name } of tables.toReversed()) await tx.execute(sql.raw(`delete from ${name}`))
  const read = await latestRows(tables, lines)
  if ('kind' in read) return read
  let count = 0
  for (const [name, rows] of read.rows)
    for (const row of rows.values()) {
      if (row === null) continue
      const table = sql.raw(name)
      await tx.execute(
        sql`insert into ${table} select r.* from json_populate_record(null::${table}, ${row}::text::json) r`,
      )
      count += 1
    }
  const after = await projectsIn(query)
  const [revisions] = await query<{ count: string }>(
    `select count(*)::text as count from project_revisions r join projects p on p.id = r.project_id
     where p.deleted_at is null`,
  )
  return {
    projects: after.length,
    revisions: Number(revisions!.count),
    rows: count,
    replacedProjects: before.length,
    changes: changesBetween(before, after),
  }
}

/** The last row of each key in an export; null where it was removed. */
async function latestRows(
  tables: readonly Table[],
  lines: AsyncIterable<string>,
): Promise<{ readonly rows: ReadonlyMap<string, ReadonlyMap<string, string | null>> } | ImportFault> {
  const latest = new Map(tables.map(({ name, key }) => [name, { key, rows: new Map<string, string | null>() }]))
  let number = 0
  let ends = false
  let ended = false
  for await (const text of lines) {
    number += 1
    const line = readJournalLine(text)
    if (line.kind === 'head' && number === 1) {
      if (line.head.migration !== latestMigration()) return { kind: 'other-version' }
      ends = line.head.ends === true
      continue
    }
    if (line.kind === 'end' && number > 1 && !ended) {
      ended = true
      continue
    }
    const table = line.kind === 'change' && number > 1 && !ended ? latest.get(line.change.table) : undefined
    if (line.kind !== 'change' || table === undefined) return { kind: 'not-an-export', line: number }
    const { change, row } = line.change
    const fields = JSON.parse(row) as Record<string, unknown>
    table.rows.set(JSON.stringify(table.key.map((column) => fields[column])), change === 'put' ? row : null)
  }
  if (number === 0) return { kind: 'not-an-export', line: 1 }
  if (ends && !ended) return { kind: 'cut-off' }
  return { rows: new Map([...latest].map(([name, { rows }]) => [name, rows])) }
}

interface ProjectState {
  readonly id: string
  readonly name: string
  /** The same as long as nothing of the project was changed. */
  readonly state: string
}

function projectsIn(query: Query): Promise<readonly ProjectState[]> {
  return query<ProjectState>(
    `select id::text as id, name, md5(row_to_json(p)::text) as state from projects p
     where deleted_at is null order by id`,
  )
}

function changesBetween(before: readonly ProjectState[], after: readonly ProjectState[]): ProjectChange[] {
  const was = new Map(before.map((project) => [project.id, project]))
  const is = new Map(after.map((project) => [project.id, project]))
  const changed = after
    .filter(({ id, state }) => was.get(id)?.state !== state)
    .map(({ id, name }) => ({ id, name, change: was.has(id) ? ('changed' as const) : ('added' as const) }))
  const removed = before
    .filter(({ id }) => !is.has(id))
    .map(({ id, name }) => ({ id, name, change: 'removed' as const }))
  return [...changed, ...removed]
}

/** One driver answers with a list, the other with an object that has one. */
function queryOf(tx: Database): Query {
  return async <Row>(statement: string) => rowsIn<Row>(await tx.execute(sql.raw(statement)))
}

function rowsIn<Row>(result: unknown): Row[] {
  return (Array.isArray(result) ? result : (result as { rows: unknown[] }).rows) as Row[]
}
