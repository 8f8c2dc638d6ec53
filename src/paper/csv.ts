import { stringify } from 'csv-stringify/sync'
import { plainDecimal } from '../measure/plain-decimal.ts'
import type { Cell, ColumnKind, Table } from './table.ts'

/** How a CSV is written. The usual form is what RFC 4180 and programs expect. */
export interface CsvForm {
  readonly sep: ',' | ';' | '\t'
  /** Never the separator. */
  readonly decimal: '.' | ','
  /** A byte order mark, by which some spreadsheets recognise UTF-8. */
  readonly bom: boolean
}

export const USUAL_CSV: CsvForm = { sep: ',', decimal: '.', bom: false }

/**
 * Places where a spreadsheet takes what follows for a formula, including full-width forms and leading control
 * characters: the beginning of a text, and inside it any character that a program may wrongly take for the file's
 * separator. An apostrophe is inserted there, also before existing apostrophes: removing one at each such place
 * restores the text.
 */
const FORMULA = /^(?='*[=+\-@\t\r\n＝＋－＠])|(?<=[,;\t\r\n]"*)(?='*[=+\-@＝＋－＠])/g

/** The same places, with the apostrophe there. */
const PROTECTED = /^'(?='*[=+\-@\t\r\n＝＋－＠])|(?<=[,;\t\r\n]"*)'(?='*[=+\-@＝＋－＠])/g

/** A text as it was before it was written to a CSV. */
export function unprotected(text: string): string {
  return text.replace(PROTECTED, '')
}

/** RFC 4180 with CRLF: the keys of the columns, then the rows. Numbers are plain, texts cannot run as formulas. */
export function csvOf({ columns, rows }: Pick<Table, 'columns' | 'rows'>, form: CsvForm = USUAL_CSV): string {
  const cells = rows.map((row) => row.map((value, index) => cellText(value, columns[index]!.kind, form)))
  return stringify([columns.map(({ key }) => key), ...cells], {
    delimiter: form.sep,
    record_delimiter: '\r\n',
    quoted_match: /[\r\n]/,
    bom: form.bom,
  })
}

function cellText(value: Cell, kind: ColumnKind, { decimal }: CsvForm): string {
  if (value === null) return ''
  if (typeof value === 'number' || kind === 'money') {
    const digits = typeof value === 'number' ? plainDecimal(value) : value
    return decimal === ',' ? digits.replace('.', ',') : digits
  }
  return value.replace(FORMULA, "'")
}
