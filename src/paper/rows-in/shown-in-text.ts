import { LONGEST_CELL, type ShownNumber } from './sheet.ts'

/** A number as shown, with signs for thousands or decimals, or a fraction, and what stands behind it. */
const SHOWN = /^[+\-−(]*\s*((?:\d|[.,](?=\d)|[\u00a0\u202f\u2009’ ](?=\d))+)(\s?\/\s?\d+)?(E[+-]?\d+)?\s*(.*?)[)\s]*$/i

/** A number and the text that its cell shows for it. */
export function shownInText(number: number, text: string): number | ShownNumber {
  const shows = text.trim()
  if (shows === '') return number
  const [, digits, fraction, exponent, unit] = (shows.length > LONGEST_CELL ? null : SHOWN.exec(shows)) ?? []
  const isSame = digits !== undefined && (fraction || exponent || readings(digits).some((each) => each(number)))
  if (!isSame) return { number, unit: null, shows: shows.slice(0, LONGEST_CELL) }
  return unit === '' ? number : { number, unit: unit!, shows }
}

/** Whether a number is what the digits show, rounded, with a decimal point or with a decimal comma. */
function readings(digits: string): ((number: number) => boolean)[] {
  return ['.', ','].map((sign) => {
    const [whole = '', decimals = '', ...more] = digits.split(sign)
    const shown = Number(`${whole.replace(/\D/g, '')}.${decimals.replace(/\D/g, '')}`)
    const rounded = 0.500001 / 10 ** decimals.length
    return (number) => more.length === 0 && Math.abs(Math.abs(number) - shown) <= rounded + 1e-9 * shown
  })
}
