import type { RowChange } from './journal/journal-lines.ts'

/** Runs a statement without parameters. */
export type Query = <Row>(statement: string) => Promise<readonly Row[]>

/** A table with people's data. Its names are quoted where SQL needs it. */
export interface Table {
  readonly name: string
  /** The columns of the primary key. */
  readonly key: readonly string[]
  /** The same for `order by`: letters in the order of their codes, whatever the database's language is. */
  readonly order: readonly string[]
}

/** All of them, each after those it points to. */
export async function tablesOf(query: Query): Promise<Table[]> {
  const found = await query<{ name: string; key: string[]; sorted: boolean[]; parents: string[] }>(`
    select quote_ident(c.relname) as name,
      array_agg(quote_ident(a.attname) order by a.attnum) as key,
      array_agg(a.attcollation <> 0 order by a.attnum) as sorted,
      array(select quote_ident(p.relname) from pg_constraint f join pg_class p on p.oid = f.confrelid
        where f.conrelid = c.oid and f.contype = 'f' and f.confrelid <> c.oid) as parents
    from pg_class c
      join pg_namespace n on n.oid = c.relnamespace
      join pg_index i on i.indrelid = c.oid and i.indisprimary
      join pg_attribute a on a.attrelid = c.oid and a.attnum = any(i.indkey)
    where n.nspname = 'public' and c.relkind = 'r' group by c.oid, c.relname order by c.relname`)
  const ordered: Table[] = []
  const rest = new Set(found)
  while (rest.size > 0)
    for (const table of rest) {
      const { name, key, sorted, parents } = table
      if (!parents.every((parent) => ordered.some((known) => known.name === parent))) continue
      ordered.push({ name, key, order: key.map((column, n) => (sorted[n] ? `${column} collate "C"` : column)) })
      rest.delete(table)
    }
  return ordered
}

/** Rows read at a time, so that no statement takes long: so many, and about so much. */
const MOST_ROWS = 50
const ABOUT_BYTES = 1024 * 1024
/** The first rows of a table may be the largest there can be. */
const FIRST_ROWS = 2

/**
 * Every row of some tables in the order of their keys, so that the same rows always give the same text. Rows that are written
 * between two statements may be among them or not.
 */
export async function* rowsOf(tables: readonly Table[], query: Query): AsyncGenerator<RowChange[]> {
  for (const { name, key, order } of tables) {
    const place = `format('${key.map(() => '%L').join(',')}', ${key.map((column) => `t.${column}`).join(', ')})`
    let after: string | null = null
    let limit = FIRST_ROWS
    for (;;) {
      const where = after === null ? '' : `where (${order.map((column) => `t.${column}`).join(', ')}) > (${after})`
      const rows: readonly { row: string; place: string }[] = await query(
        `select row_to_json(t)::text as row, ${place} as place from ${name} t ${where}
         order by ${order.map((column) => `t.${column}`).join(', ')} limit ${limit}`,
      )
      if (rows.length > 0) yield rows.map(({ row }) => ({ seq: 0, table: name, change: 'put', row }))
      if (rows.length < limit) break
      after = rows.at(-1)!.place
      const letters = rows.reduce((sum, { row }) => sum + row.length, 0)
      limit = Math.max(1, Math.min(MOST_ROWS, 2 * limit, Math.floor((ABOUT_BYTES * rows.length) / letters)))
    }
  }
}
