import type { PGlite, Transaction } from '@electric-sql/pglite'
import { rowsOf, tablesOf as tablesBy } from '../rows-of-tables.ts'
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
  for (const { name } of await tablesOf(client))
    await client.exec(`
      create or replace trigger note_in_journal after insert or update or delete on ${name}
      for each row execute function journal.note();`)
}

const tablesOf = (client: Queries) => tablesBy(queryOf(client))

/** Every row of every table. */
export async function* allRows(client: Queries): AsyncGenerator<RowChange> {
  for await (const rows of rowsOf(await tablesOf(client), queryOf(client))) yield* rows
}

function queryOf(client: Queries) {
  return async <Row>(statement: string) => (await client.query<Row>(statement)).rows
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
  const tables = new Map((await tablesOf(client)).map((table) => [table.name, table]))
  await client.transaction(async (tx) => {
    // Neither triggers nor foreign keys: the rows are consistent when all of them are there.
    await tx.exec("set local session_replication_role = 'replica'")
    for (const name of tables.keys()) await tx.exec(`delete from ${name}`)
    for await (const { table, change, row } of changes) {
      const known = tables.get(table)
      if (known === undefined) throw new Error(`the journal has a table ${table}, which the database has not`)
      const same = known.key.map((column) => `t.${column} = r.${column}`).join(' and ')
      const given = `json_populate_record(null::${table}, $1::json) r`
      await tx.query(`delete from ${table} t using ${given} where ${same}`, [row])
      if (change === 'put') await tx.query(`insert into ${table} select r.* from ${given}`, [row])
    }
  })
}
