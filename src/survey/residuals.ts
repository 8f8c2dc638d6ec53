import type { Adjusted } from './adjusting.ts'
import { MOST_BY_CHANCE } from './circles.ts'

/** How well a reading agrees with all the others. */
export interface Residual {
  /** Adjusted minus measured: what the reading would have to be changed by. */
  readonly residualMm: number
  /** Share of an error of this reading that shows in its residual, 0 to 1; at 0 nothing checks it. */
  readonly redundancy: number
  /** Of the residual, in its own standard deviations; null where nothing checks the reading. */
  readonly test: number | null
  readonly isSuspect: boolean
}

/** A smaller share is rounding. */
const CHECKED = 1e-6

/**
 * Baarda's test of single readings: r = 1 − a·N⁻¹·aᵀ/σ² (redundancy number), w = v/(σ·√r), v the residual, a the row of
 * the reading, σ its standard deviation. |w| over 3.29 comes about by chance once in a thousand. Range: errors as they were
 * stated; one slip among the readings. Source: W. Baarda, *A testing procedure for use in geodetic networks* (1968), from
 * memory; checked in tests/survey/closed-forms.test.ts and tests/published/level-circuit.test.ts.
 *
 * @returns null for a reading that was not used
 */
export function residualsOf({ rows, covariance }: Adjusted): (Residual | null)[] {
  return rows.map((row) => {
    if (!row) return null
    const { slopes, errorMm, misclosureMm } = row
    const { size, values } = covariance ?? { size: 0, values: [] }
    let ofAdjusted = 0
    for (const one of slopes)
      for (const other of slopes) ofAdjusted += one.slope * other.slope * values[one.column * size + other.column]!
    const share = 1 - ofAdjusted / errorMm ** 2
    const redundancy = share > CHECKED ? Math.min(1, share) : 0
    const residualMm = -misclosureMm + 0
    const test = redundancy > 0 ? residualMm / (errorMm * Math.sqrt(redundancy)) : null
    return { residualMm, redundancy, test, isSuspect: test !== null && Math.abs(test) > MOST_BY_CHANCE }
  })
}
