import type { Bill } from '../estimate/answer.ts'
import { csvOf } from '../paper/csv.ts'
import { tableOf } from '../paper/table.ts'
import { billRows, STABLE_BILL_COLUMNS } from '../paper/tables/bill.ts'

/** The bill's lines, in columns that stay as they are. */
export function billCsv(bill: Bill): string {
  return csvOf(tableOf('bill', 'Shopping list', STABLE_BILL_COLUMNS, billRows({ bill }), 'mm'))
}
