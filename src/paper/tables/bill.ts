import type { BillLine, Estimate } from '../../estimate/answer.ts'
import { type ColumnOf, count, length, money, number, text } from '../table.ts'

interface Row {
  readonly line: BillLine
  readonly currency: string
}

export const BILL_COLUMNS: readonly ColumnOf<Row>[] = [
  text('item', 'Item', ({ line }) => line.item),
  text('description', 'Description', ({ line }) => line.description),
  length('lengthMm', 'Length of one', ({ line }) => line.lengthMm),
  text('unit', 'Counted in', ({ line }) => line.unit),
  number('required', 'Needed', ({ line }) => line.required),
  number('onHand', 'On hand', ({ line }) => line.onHand),
  number('toBuy', 'To buy', ({ line }) => line.toBuy),
  number('packSize', 'In a pack', ({ line }) => line.packSize),
  count('packs', 'Packs', ({ line }) => line.packs),
  money('unitPrice', 'Price of a pack', ({ line }) => line.unitPrice),
  money('amount', 'Amount', ({ line }) => line.amount),
  text('currency', 'Currency', ({ currency }) => currency),
  number('sparePct', 'Spare (%)', ({ line }) => line.sparePct),
  number('massKg', 'Weight of the packs (kg)', ({ line }) => line.massKg),
]

export function billRows({ bill: { lines, currency } }: Pick<Estimate, 'bill'>): Row[] {
  return lines.map((line) => ({ line, currency }))
}
