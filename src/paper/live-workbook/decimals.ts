/*
 * A cell's content as text has the decimal sign of the spreadsheet, and so has a length that is typed as it is spoken. The
 * name `decimalSign` stands for that sign. A comma where decimals have a point parts thousands, or is a slip: it stays, and
 * the service refuses it rather than guess.
 */

/** The decimal sign of the spreadsheet that works it out. */
export const DECIMAL_SIGN = 'MID(1/2&"",2,1)'

/** A measure with a point for its decimals. */
export function withPoint(measure: string): string {
  return `SUBSTITUTE(${measure},decimalSign,".")`
}
