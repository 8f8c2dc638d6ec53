import type { Bill, BillLine, Estimate } from '../../estimate/answer.ts'
import { BILL, BILL_LINE } from '../../laying/bill.ts'
import { columnsOf } from '../columns.ts'

interface Row {
  readonly line: BillLine
  readonly bill: Bill
}

const ofLine = columnsOf(BILL_LINE, ({ line }: Row) => line)
const ofBill = columnsOf(BILL, ({ bill }: Row) => bill)

/** The columns of the bill as CSV, which must not change. */
export const STABLE_BILL_COLUMNS = ofLine(
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
)

export const BILL_COLUMNS = [...STABLE_BILL_COLUMNS, ...ofBill('currency'), ...ofLine('sparePct', 'massKg')]

export function billRows({ bill }: Pick<Estimate, 'bill'>): Row[] {
  return bill.lines.map((line) => ({ line, bill }))
}
