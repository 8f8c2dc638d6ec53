import type { DecimalSign, SheetCell } from './sheet.ts'

/** A number that could be grouped by thousands or have three decimals; no group begins with 0. */
const AMBIGUOUS_COMMA = /^[1-9]\d{0,2},\d{3}$/
const AMBIGUOUS_POINT = /^[1-9]\d{0,2}\.\d{3}$/

const DECIMAL_COMMA = /^(?:\d+,\d+|\d{1,3}(?:\.\d{3})+,\d+)$/
const DECIMAL_POINT = /^(?:\d+\.\d+|\d{1,3}(?:,\d{3})+\.\d+)$/
const GROUPED_BY_COMMA = /^\d{1,3}(?:,\d{3}){2,}$/
const GROUPED_BY_POINT = /^\d{1,3}(?:\.\d{3}){2,}$/

/** The numbers of a cell with their signs, such as the two in 7' 6,5". */
const NUMBERS = /\d[\d.,]*\d/g

/** Non-breaking spaces, which French and Swedish spreadsheets write between thousands. */
const SPACE_OF_THOUSANDS = /(?<=\d)[\u00a0\u202f\u2009](?=\d{3}(?!\d))/g

/**
 * The decimal sign that the numbers of a table clearly use; null: none, or both.
 *
 * @param usual the sign where none is shown and no number has a comma: with commas between cells a point
 */
export function decimalSignOf(cells: readonly SheetCell[], usual: DecimalSign): DecimalSign {
  const numbers = cells.flatMap((cell) => (typeof cell === 'string' ? [...cell.matchAll(NUMBERS)] : [])).map(String)
  const comma = numbers.some(
    (text) => !AMBIGUOUS_COMMA.test(text) && (DECIMAL_COMMA.test(text) || GROUPED_BY_POINT.test(text)),
  )
  const point = numbers.some(
    (text) => !AMBIGUOUS_POINT.test(text) && (DECIMAL_POINT.test(text) || GROUPED_BY_COMMA.test(text)),
  )
  if (comma !== point) return comma ? ',' : '.'
  return comma || numbers.some((text) => text.includes(',')) ? null : usual
}

/**
 * A cell with its numbers written with a decimal point and without groups.
 *
 * `1,234` and `1.234` are read like the other numbers of the table: 1,234 is 1.234 where they have decimal commas and
 * 1234 where they have decimal points.
 *
 * @returns null where it is ambiguous
 */
export function withPoint(cell: string, sign: DecimalSign): string | null {
  let isAmbiguous = false
  const text = cell.replace(SPACE_OF_THOUSANDS, '').replace(NUMBERS, (number) => {
    if (AMBIGUOUS_COMMA.test(number) || AMBIGUOUS_POINT.test(number)) {
      if (sign !== null) return number.includes(sign) ? number.replace(',', '.') : number.replace(/[.,]/, '')
      isAmbiguous = true
      return number
    }
    if (DECIMAL_COMMA.test(number)) return number.replaceAll('.', '').replace(',', '.')
    if (DECIMAL_POINT.test(number)) return number.replaceAll(',', '')
    if (GROUPED_BY_COMMA.test(number)) return number.replaceAll(',', '')
    return GROUPED_BY_POINT.test(number) ? number.replaceAll('.', '') : number
  })
  return isAmbiguous ? null : text
}
