import { stringify } from 'csv-stringify/sync'
import type { Bill, BillLine } from '../estimate/answer.ts'

const COLUMNS = [
  'item',
  'description',
  'lengthMm',
  'unit',
  'required',
  'onHand',
  'toBuy',
  'packSize',
  'packs',
  'unitPrice',
  'amount',
] as const satisfies readonly (keyof BillLine)[]

const TEXTS: ReadonlySet<string> = new Set(['item', 'description', 'unit'])

/** What makes a spreadsheet take a cell for a formula, full-width forms and leading control characters among it. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/

/** The bill's lines, RFC 4180 with CRLF. What has no value is an empty cell. */
export function billCsv(bill: Bill): string {
  const rows = bill.lines.map((line) =>
    COLUMNS.map((column) => {
      const value = line[column]
      if (value === null) return ''
      return TEXTS.has(column) && FORMULA.test(String(value)) ? `'${value}` : String(value)
    }),
  )
  return stringify([COLUMNS, ...rows], { record_delimiter: '\r\n' })
}

/** Characters some system does not allow in a file name, or that would leave its folder. */
const NOT_IN_FILE_NAMES = /[\p{Cc}\p{Cf}"*/:<>?\\|%]/gu

/** The file name's parameters of Content-Disposition: plain ASCII for old clients, the project's name for the others. */
export function billFileName(projectName: string): string {
  const name = [...projectName.replace(NOT_IN_FILE_NAMES, ' ').replace(/\s+/g, ' ').trim()].slice(0, 80).join('')
  const full = `${name.replace(/^\.+/, '') || 'project'} bill.csv`
  const encoded = encodeURIComponent(full).replace(
    /['()*]/g,
    (char) => `%${char.charCodeAt(0).toString(16).toUpperCase()}`,
  )
  return `filename="bill.csv"; filename*=UTF-8''${encoded}`
}
