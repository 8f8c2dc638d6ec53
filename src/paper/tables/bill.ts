import type { Bill, BillLine, Estimate } from '../../estimate/answer.ts'
import { BILL, BILL_LINE } from '../../laying/bill.ts'
import { meantNumber } from '../../measure/meant.ts'
import { columnsOf } from '../columns.ts'
import type { Cell, Column } from '../table.ts'

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

const OF_SPARES = ofLine('sparePct', 'massKg')

export const BILL_COLUMNS = [
  ...STABLE_BILL_COLUMNS,
  ...ofBill('currency'),
  ...OF_SPARES,
  ...ofBill(
    { of: 'total', key: 'billTotal' },
    'taxRatePct',
    { of: 'tax', key: 'billTax' },
    { of: 'gross', key: 'billGross' },
  ),
]

/** Without what is the same in every row. */
export const SHEET_BILL_COLUMNS = [...STABLE_BILL_COLUMNS, ...OF_SPARES]

export function billRows({ bill }: Pick<Estimate, 'bill'>): Row[] {
  return bill.lines.map((line) => ({ line, bill }))
}

/** The totals, with their amounts and masses below those of the lines. */
export function billFoot({ bill }: Pick<Estimate, 'bill'>, columns: readonly Column[]): Cell[][] {
  const { currency, total, unpricedLines, taxRatePct, tax, gross, massKg, linesWithoutMass } = bill
  const unpriced = unpricedLines === 0 ? '' : `, without ${counted(unpricedLines)} of unknown price`
  const unweighed = linesWithoutMass === 0 ? '' : `; weight without ${counted(linesWithoutMass)}`
  const row = (description: string, amount: string, mass: number | null): Cell[] =>
    columns.map(({ key }) =>
      key === 'description'
        ? description
        : key === 'amount'
          ? amount
          : key === 'massKg' && mass !== null
            ? meantNumber(mass)
            : null,
    )
  return [
    row(`Total in ${currency}${unpriced}${unweighed}`, total, massKg),
    ...(tax === null || gross === null
      ? []
      : [row(`Tax, ${taxRatePct} %`, tax, null), row(`Total with tax in ${currency}`, gross, null)]),
  ]
}

function counted(items: number): string {
  return items === 1 ? '1 item' : `${items} items`
}
