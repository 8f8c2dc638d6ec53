import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'

/** The steepest grade under the longest train, its front on a track. */
export interface AveragedGrade {
  readonly track: string
  readonly element: number
  /** Station of its front. */
  readonly atMm: number
  readonly pct: number
  readonly limitPct: number
  readonly overMm: number
}

/** Short grades may each be steeper than the maximum, but not all that lies under one train together. */
export function averagedGradeFindings(steep: readonly AveragedGrade[]): Finding[] {
  return steep.map(({ track, element, atMm, pct, limitPct, overMm }) => ({
    rule: 'averaged-grade',
    severity: 'warn',
    track,
    element,
    message: `Under the longest train (${formatMm(overMm)}) with its front at ${formatMm(atMm)} the grade is ${pct.toFixed(2)} % on average; the limit is ${limitPct} %.`,
    measured: pct,
    limit: limitPct,
    unit: '%',
    cure: 'Make the short grades under it less steep, or put more level track between them.',
  }))
}
