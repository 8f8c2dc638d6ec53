import type { Bill } from '../estimate/answer.ts'
import { csvOf } from '../paper/csv.ts'
import { tableOf } from '../paper/table.ts'
import { BILL_COLUMNS, billRows } from '../paper/tables/bill.ts'

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
]

const COLUMNS = BILL_COLUMNS.filter(({ key }) => NAMES.includes(key))

/** The bill's lines, in columns that stay as they are. */
export function billCsv(bill: Bill): string {
  return csvOf(tableOf('bill', 'Shopping list', COLUMNS, billRows({ bill }), 'mm'))
}
