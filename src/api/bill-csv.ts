import type { Bill } from '../estimate/answer.ts'
import { csvOf } from '../paper/csv.ts'
import { tableOf } from '../paper/table.ts'
import { billRows, STABLE_BILL_COLUMNS } from '../paper/tables/bill.ts'

/** The lines of the bill, in columns that stay the same between versions. */
export function billCsv(bill: Bill): string {
  return csvOf(tableOf('bill', 'Shopping list', STABLE_BILL_COLUMNS, billRows({ bill }), 'mm'))
}
