import type { Bill, BillLine } from '../estimate/answer.ts'
import { type Column, csvOf } from './csv.ts'

const NAMES = [
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

const COLUMNS = NAMES.map((name): Column<BillLine> => [name, (line) => line[name]])

/** The bill's lines. */
export function billCsv(bill: Bill): string {
  return csvOf(COLUMNS, bill.lines)
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
