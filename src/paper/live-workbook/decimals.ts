/*
 * A cell's content as text uses the decimal sign of the spreadsheet, and so does a length typed with its unit. The
 * name `decimalSign` stands for that sign. A comma where decimals use a point separates thousands, or is an error: it
 * stays, and the service refuses it instead of guessing.
 */

/** The decimal sign of the spreadsheet that evaluates it. */
export const DECIMAL_SIGN = 'MID(1/2&"",2,1)'

/** A measure with a point for its decimals. */
export function withPoint(measure: string): string {
  return `SUBSTITUTE(${measure},decimalSign,".")`
}
