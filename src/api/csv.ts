import { stringify } from 'csv-stringify/sync'

/** A column: its header, and what of a row stands in it. */
export type Column<Row> = readonly [name: string, value: (row: Row) => string | number | null]

/** What makes a spreadsheet take a cell for a formula, full-width forms and leading control characters among it. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/

/** RFC 4180 with CRLF. Numbers go out as plain numbers, texts cannot run as formulas, what has no value is empty. */
export function csvOf<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const cells = rows.map((row) => columns.map(([, value]) => cell(value(row))))
  return stringify([columns.map(([name]) => name), ...cells], { record_delimiter: '\r\n' })
}

function cell(value: string | number | null): string {
  if (value === null) return ''
  if (typeof value === 'number') return String(value)
  return FORMULA.test(value) ? `'${value}` : value
}
