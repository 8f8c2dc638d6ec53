import { type Table, text } from './table.ts'

/** What a table was made from, and when. */
export interface Origin {
  /** Its name; null: it has none. */
  readonly plan: string | null
  /** Null: the plan is not saved. */
  readonly revision: number | null
  /** ISO 8601, such as 2026-05-31. */
  readonly date: string
}

const COLUMNS = [
  text<Origin>('plan', 'Plan', ({ plan }) => plan),
  { key: 'revision', title: 'Revision', kind: 'count' as const, value: ({ revision }: Origin) => revision },
  text<Origin>('date', 'Date', ({ date }) => date),
]

/** The keys of the columns that say where a table comes from. */
export const ORIGIN_KEYS = COLUMNS.map(({ key }) => key)

/** The table with its origin in every row, so that each is complete in itself. */
export function withOrigin(table: Table, origin: Origin): Table {
  const cells = COLUMNS.map(({ value }) => value(origin))
  return {
    ...table,
    columns: [...table.columns, ...COLUMNS.map(({ key, title, kind }) => ({ key, title, kind }))],
    rows: table.rows.map((row) => [...row, ...cells]),
  }
}

/** The same in a line for people. */
export function originLine({ plan, revision, date }: Origin): string {
  return [plan, revision === null ? 'not saved' : `revision ${revision}`, date]
    .filter((part) => part !== null)
    .join(', ')
}
