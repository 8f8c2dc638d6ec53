import Big from 'big.js'
import { plainDecimal } from '../../measure/plain-decimal.ts'

/** The longest number that a spreadsheet cell reads reliably. */
const LONGEST_NUMBER = 32

/** A number as the text of a cell: the shortest digits that stand for it, rounded if they do not fit. */
export function cellText(value: number): string {
  const text = plainDecimal(value)
  if (text.length <= LONGEST_NUMBER) return text
  const [whole] = text.split('.')
  const decimals = Math.max(0, LONGEST_NUMBER - whole!.length - 1)
  const rounded = new Big(text).toFixed(decimals)
  const tidy = rounded.includes('.') ? rounded.replace(/\.?0+$/, '') : rounded
  return tidy === '-0' ? '0' : tidy
}

/** Whether a cell can hold a number: it must not have too many digits before the decimal point. */
export function fitsCell(value: number): boolean {
  return Number.isFinite(value) && Math.abs(value) < 1e30
}

const LONGEST_MESSAGE = 255

/** What a cell shows in place of a number: `ERR code field: what to do`. */
export function errorText(
  faults: readonly {
    readonly parameter: string
    readonly code: string
    readonly detail: string
    readonly hint?: string | undefined
  }[],
): string {
  const [{ parameter, code, detail, hint }] = faults as [(typeof faults)[number]]
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : ''
  const text = `ERR ${code} ${parameter}: ${hint === undefined ? detail : `${detail}; ${hint}`}`.replace(/\s+/g, ' ')
  const room = LONGEST_MESSAGE - more.length
  return `${text.length > room ? `${text.slice(0, room - 1)}…` : text}${more}`
}
