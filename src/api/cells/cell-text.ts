import Big from 'big.js'
import { plainDecimal } from '../../measure/plain-decimal.ts'

/** A cell of a spreadsheet reads no longer number safely. */
const LONGEST_NUMBER = 32

/** A number as a cell is answered: digits alone, the shortest that say it, rounded where they are more than fit. */
export function cellText(value: number): string {
  const text = plainDecimal(value)
  if (text.length <= LONGEST_NUMBER) return text
  const [whole] = text.split('.')
  const decimals = Math.max(0, LONGEST_NUMBER - whole!.length - 1)
  const rounded = new Big(text).toFixed(decimals)
  const tidy = rounded.includes('.') ? rounded.replace(/\.?0+$/, '') : rounded
  return tidy === '-0' ? '0' : tidy
}

/** Whether a number has so few digits before its point that a cell can hold it. */
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
