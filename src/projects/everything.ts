import { randomUUID } from 'node:crypto'
import { promisify } from 'node:util'
import { gunzip, gzip } from 'node:zlib'
import { sql } from 'drizzle-orm'
import type { Everything, Imported, ImportFault } from './everything-types.ts'
import { changeLine, headLine, readJournalLine } from './journal/journal-lines.ts'
import { rowsOfTables } from './journal/row-changes.ts'
import { latestMigration } from './migrations.ts'
import type { Database } from './project-rows.ts'

const pack = promisify(gzip)

/** Everything there is at one moment, in the form of a journal without changes (journal-lines.ts). */
export function exportEverything(db: Database): Promise<Everything> {
  return db.transaction(
    async (tx) => {
      const parts = [await pack(headLine({ id: randomUUID(), migration: latestMigration() }))]
      const tables = (await tablesOf(tx)).map(({ name }) => name)
      const query = async (statement: string) => rowsOf<{ row: string }>(await tx.execute(sql.raw(statement)))
      for await (const rows of rowsOfTables(tables, query)) parts.push(await pack(rows.map(changeLine).join('')))
      return parts
    },
    { isolationLevel: 'repeatable read' },
  )
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
  const tables = await tablesOf(tx)
  const [before] = rowsOf<{ count: string }>(await tx.execute(sql.raw('select count(*)::text as count from projects')))
  const replacedProjects = Number(before!.count)
  if (replacedProjects > 0 && !replace) return { kind: 'not-empty', projects: replacedProjects }
  // A table that others point to comes after them here, and before them when rows are written.
  for (const { name } of tables.toReversed()) await tx.execute(sql.raw(`delete from ${name}`))
  const latest = new Map(tables.map(({ name, key }) => [name, { key, rows: new Map<string, string | null>() }]))
  let number = 0
  for await (const text of lines) {
    number += 1
    const line = readJournalLine(text)
    if (line.kind === 'head' && number === 1) {
      if (line.head.migration !== latestMigration()) return { kind: 'other-version' }
      continue
    }
    const table = line.kind === 'change' && number > 1 ? latest.get(line.change.table) : undefined
    if (line.kind !== 'change' || table === undefined) return { kind: 'not-an-export', line: number }
    const { change, row } = line.change
    const fields = JSON.parse(row) as Record<string, unknown>
    table.rows.set(JSON.stringify(table.key.map((column) => fields[column])), change === 'put' ? row : null)
  }
  if (number === 0) return { kind: 'not-an-export', line: 1 }
  let count = 0
  for (const [name, { rows }] of latest)
    for (const row of rows.values()) {
      if (row === null) continue
      const table = sql.raw(name)
      await tx.execute(
        sql`insert into ${table} select r.* from json_populate_record(null::${table}, ${row}::text::json) r`,
      )
      count += 1
    }
  const [after] = rowsOf<{ projects: string; revisions: string }>(
    await tx.execute(
      sql.raw(
        'select (select count(*) from projects)::text as projects, (select count(*) from project_revisions)::text as revisions',
      ),
    ),
  )
  return { projects: Number(after!.projects), revisions: Number(after!.revisions), rows: count, replacedProjects }
}

interface Table {
  readonly name: string
  /** The columns of the primary key. */
  readonly key: readonly string[]
}

/** All tables with people's data, each after those it points to. */
async function tablesOf(tx: Database): Promise<Table[]> {
  const found = rowsOf<{ name: string; key: string; parents: string }>(
    await tx.execute(
      sql.raw(`
        select c.relname as name,
          (select string_agg(a.attname, ',' order by a.attnum) from pg_index i
            join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any(i.indkey)
            where i.indrelid = c.oid and i.indisprimary) as key,
          coalesce((select string_agg(p.relname, ',') from pg_constraint f join pg_class p on p.oid = f.confrelid
            where f.conrelid = c.oid and f.contype = 'f' and f.confrelid <> c.oid), '') as parents
        from pg_class c join pg_namespace n on n.oid = c.relnamespace
        where n.nspname = 'public' and c.relkind = 'r' order by c.relname`),
    ),
  )
  const ordered: Table[] = []
  const rest = new Set(found)
  while (rest.size > 0)
    for (const table of rest) {
      const parents = table.parents.split(',').filter((name) => name !== '')
      if (!parents.every((name) => ordered.some((known) => known.name === name))) continue
      ordered.push({ name: table.name, key: table.key.split(',') })
      rest.delete(table)
    }
  return ordered
}

/** The rows of a statement: one driver answers with a list, the other with an object that has one. */
function rowsOf<T>(result: unknown): T[] {
  return (Array.isArray(result) ? result : (result as { rows: unknown[] }).rows) as T[]
}
