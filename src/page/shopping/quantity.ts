import type { BillLine } from '../../estimate/answer.ts'

const UNITS = { each: '', m: ' m', L: ' L', kg: ' kg' } as const

/** A quantity of a line with its unit. */
export function quantityOf(quantity: number, { unit }: Pick<BillLine, 'unit'>): string {
  return `${quantityText(quantity)}${UNITS[unit]}`
}

/** Whole numbers unchanged, others with two decimals. */
export function quantityText(quantity: number): string {
  return Number.isInteger(quantity) ? String(quantity) : quantity.toFixed(2)
}
