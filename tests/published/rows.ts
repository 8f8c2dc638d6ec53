/** Where a printed number comes from. */
export type Label = 'published' | 'closed form' | 'by hand' | 'from memory' | 'derived'

/** A number as its source prints it beside what the program makes of it. */
export interface Row {
  readonly what: string
  readonly printed: number
  readonly computed: number
  /** How far the two may be apart: the last printed digit, unless the row says more. */
  readonly within: number
  readonly label: Label
}

/** Rounding of the decimal figures themselves, relative to the printed number. */
const DECIMAL_SLACK = 1e-12

/** The rows that do not agree, in words; empty when all do. */
export function misses(rows: readonly Row[]): string[] {
  return rows
    .filter(({ printed, computed, within }) => {
      return !(Math.abs(computed - printed) <= within + DECIMAL_SLACK * Math.abs(printed))
    })
    .map(({ what, printed, computed, label }) => `${what}: ${printed} (${label}), computed ${computed}`)
}

/**
 * Whether the comparison can fail: every row in turn gets a wrong number, a little more than twice its allowance off,
 * up and down. Answers the rows that would have let it pass; empty when none would.
 */
export function blindRows(rows: readonly Row[]): string[] {
  return rows
    .filter((row) =>
      [2.1, -2.1].some((planted) => misses([{ ...row, printed: row.printed + planted * row.within }]).length === 0),
    )
    .map(({ what }) => what)
}
