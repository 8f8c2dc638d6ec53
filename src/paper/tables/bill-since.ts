import { type BillSince, LINE_SINCE } from '../../shed/bill-since.ts'
import { columnsOf } from '../columns.ts'
import { type LengthsIn, type Table, tableOf } from '../table.ts'
import { BILL_COLUMNS, billRows } from './bill.ts'

type Line = BillSince['lines'][number]

const BOUGHT = columnsOf(LINE_SINCE, ({ line }: { readonly line: Line }) => line)('boughtBefore')
const COLUMNS = [...BILL_COLUMNS, ...BOUGHT]

/** The bill of what is still to buy: the columns of any bill, and what was bought before. */
export function billSinceTable(bill: BillSince, lengthsIn: LengthsIn): Table {
  const rows = billRows({ bill }).map(({ line }, index) => ({ line: { ...line, ...bill.lines[index]! }, bill }))
  return tableOf('bill', 'Shopping list', COLUMNS, rows, lengthsIn)
}
