import type { Sheet } from './sheet.ts'

/** A number that could be grouped by thousands or have three decimals. */
const AMBIGUOUS_COMMA = /^\d{1,3},\d{3}$/
const AMBIGUOUS_POINT = /^\d{1,3}\.\d{3}$/

const DECIMAL_COMMA = /^(?:\d+,\d+|\d{1,3}(?:\.\d{3})+,\d+)$/
const DECIMAL_POINT = /^(?:\d+\.\d+|\d{1,3}(?:,\d{3})+\.\d+)$/
const GROUPED_BY_COMMA = /^\d{1,3}(?:,\d{3}){2,}$/
const GROUPED_BY_POINT = /^\d{1,3}(?:\.\d{3}){2,}$/

/** The digits and signs at the beginning of a cell; what follows is a unit. */
const NUMBER = /^[\d.,]+/

export type DecimalSign = ',' | '.' | null

/** Which decimal sign the numbers of a table show without doubt; null: none, or both. */
export function decimalSignOf(rows: Sheet): DecimalSign {
  const numbers = rows.flatMap((row) =>
    row.flatMap((cell) => (typeof cell === 'string' ? (NUMBER.exec(cell)?.[0] ?? []) : [])),
  )
  const comma = numbers.some(
    (text) => !AMBIGUOUS_COMMA.test(text) && (DECIMAL_COMMA.test(text) || GROUPED_BY_POINT.test(text)),
  )
  const point = numbers.some(
    (text) => !AMBIGUOUS_POINT.test(text) && (DECIMAL_POINT.test(text) || GROUPED_BY_COMMA.test(text)),
  )
  return comma === point ? null : comma ? ',' : '.'
}

/**
 * A cell with its number written with a decimal point and without groups.
 *
 * `1,234` is taken as the other numbers of the table show: 1.234 where they have decimal commas, 1234 where they have
 * decimal points. `1.234` is 1.234, as everywhere in this service, unless the others have decimal commas.
 *
 * @returns null where it could be read in two ways
 */
export function withPoint(cell: string, sign: DecimalSign): string | null {
  const number = NUMBER.exec(cell)?.[0]
  if (number === undefined || !/[.,]/.test(number)) return cell
  const rest = cell.slice(number.length)
  if (AMBIGUOUS_COMMA.test(number)) {
    if (sign === null) return null
    return (sign === ',' ? number.replace(',', '.') : number.replace(',', '')) + rest
  }
  if (AMBIGUOUS_POINT.test(number)) return sign === ',' ? null : cell
  if (DECIMAL_COMMA.test(number)) return sign === '.' ? null : number.replaceAll('.', '').replace(',', '.') + rest
  if (DECIMAL_POINT.test(number)) return sign === ',' ? null : number.replaceAll(',', '') + rest
  if (GROUPED_BY_COMMA.test(number)) return number.replaceAll(',', '') + rest
  if (GROUPED_BY_POINT.test(number)) return number.replaceAll('.', '') + rest
  return cell
}
