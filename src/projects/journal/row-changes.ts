import type { PGlite, Transaction } from '@electric-sql/pglite'
import type { RowChange } from './journal-lines.ts'

type Queries = Pick<PGlite | Transaction, 'query' | 'exec'>

/**
 * Notes every change of a row in a table of its own, in the transaction that makes it. To be called after migrations: it
 * covers all tables there are.
 */
export async function noteChanges(client: PGlite): Promise<void> {
  await client.exec(`
    create schema if not exists journal;
    create table if not exists journal.head (id text not null);
    create table if not exists journal.changes
      (seq bigint generated always as identity primary key, tab text not null, change text not null, line json not null);
    create or replace function journal.note() returns trigger language plpgsql as $$
    begin
      if tg_op = 'DELETE' then
        insert into journal.changes (tab, change, line) values (tg_table_name, 'remove', row_to_json(old));
      else
        insert into journal.changes (tab, change, line) values (tg_table_name, 'put', row_to_json(new));
      end if;
      return null;
    end $$;`)
  for (const table of await tablesOf(client))
    await client.exec(`
      create or replace trigger note_in_journal after insert or update or delete on ${table}
      for each row execute function journal.note();`)
}

/** All tables with people's data. */
async function tablesOf(client: Queries): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(
    "select quote_ident(tablename) as name from pg_tables where schemaname = 'public' order by tablename",
  )
  return rows.map(({ name }) => name)
}

/** Rows read at a time: each may hold a plan of a megabyte. */
const BATCH = 50

/** Every row of some tables, in lists of a table's rows. */
export async function* rowsOfTables(
  tables: readonly string[],
  query: (statement: string) => Promise<readonly { readonly row: string }[]>,
): AsyncGenerator<RowChange[]> {
  for (const table of tables)
    for (let offset = 0; ; offset += BATCH) {
      const rows = await query(
        `select row_to_json(t)::text as row from ${table} t order by ctid limit ${BATCH} offset ${offset}`,
      )
      if (rows.length > 0) yield rows.map(({ row }) => ({ seq: 0, table, change: 'put', row }))
      if (rows.length < BATCH) break
    }
}

/** Every row of every table. */
export async function* allRows(client: Queries): AsyncGenerator<RowChange> {
  const query = async (statement: string) => (await client.query<{ row: string }>(statement)).rows
  for await (const rows of rowsOfTables(await tablesOf(client), query)) yield* rows
}

/** The changes after a number, oldest first. */
export async function changesAfter(client: Queries, seq: number): Promise<RowChange[]> {
  const { rows } = await client.query<RowChange>(
    `select seq::float8 as seq, tab as table, change, line::text as row from journal.changes where seq > ${seq} order by seq`,
  )
  return rows
}

/** Forgets what is in the journal, but for the last change, which tells how far the database is. */
export async function forgetBefore(client: Queries, seq: number): Promise<void> {
  await client.exec(`delete from journal.changes where seq < ${seq}`)
}

/** Marks a database as described by a journal that begins with the rows there are now. */
export async function beginWith(client: Queries, id: string): Promise<void> {
  await client.exec(`
    truncate journal.changes restart identity;
    delete from journal.head;
    insert into journal.head (id) values ('${id}');`)
}

/** Up to which change of which journal a database is; null if it never had a journal. */
export async function positionOf(client: Queries): Promise<{ readonly id: string; readonly seq: number } | null> {
  const { rows: tables } = await client.query(
    "select 1 from pg_tables where schemaname = 'journal' and tablename = 'head'",
  )
  if (tables.length === 0) return null
  const { rows } = await client.query<{ id: string; seq: number }>(
    'select id, (select coalesce(max(seq), 0) from journal.changes)::float8 as seq from journal.head',
  )
  return rows[0] ?? null
}

/** Makes a database with nothing but its migrations into the one that a journal describes, in one transaction. */
export async function applyChanges(client: PGlite, changes: AsyncIterable<RowChange>): Promise<void> {
  const keys = await keysOf(client)
  await client.transaction(async (tx) => {
    // Neither triggers nor foreign keys: the rows are consistent when all of them are there.
    await tx.exec("set local session_replication_role = 'replica'")
    for (const { table } of keys.values()) await tx.exec(`delete from ${table}`)
    for await (const { table, change, row } of changes) {
      const known = keys.get(table)
      if (known === undefined) throw new Error(`the journal has a table ${table}, which the database has not`)
      const { key } = known
      const same = key.map((column) => `t.${column} = r.${column}`).join(' and ')
      const given = `json_populate_record(null::${table}, $1::json) r`
      await tx.query(`delete from ${table} t using ${given} where ${same}`, [row])
      if (change === 'put') await tx.query(`insert into ${table} select r.* from ${given}`, [row])
    }
  })
}

interface Keyed {
  readonly table: string
  /** The columns of the primary key. */
  readonly key: readonly string[]
}

async function keysOf(client: PGlite): Promise<Map<string, Keyed>> {
  const keys = new Map<string, Keyed>()
  for (const table of await tablesOf(client)) {
    const { rows } = await client.query<{ name: string }>(
      `select quote_ident(attname) as name from pg_index join pg_attribute on attrelid = indrelid and attnum = any(indkey)
       where indisprimary and indrelid = '${table}'::regclass`,
    )
    keys.set(table, { table, key: rows.map(({ name }) => name) })
  }
  return keys
}
