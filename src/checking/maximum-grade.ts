import { formatMm } from '../measure/length.ts'
import { elementAt } from '../track/place.ts'
import type { Rule } from './checked-track.ts'

/** A grade within a billionth of the limit passes: it was computed from two elevations. */
const SLACK = 1e-9

/** A grade steeper than the standards allow, up or down: one warning for each stretch of constant grade. */
export const maximumGrade: Rule = ({ name, placed, grades }, { maximumGradePct }) =>
  grades.flatMap(({ fromMm, toMm, grade }) => {
    const gradePct = Math.abs(grade) * 100
    if (gradePct <= maximumGradePct * (1 + SLACK)) return []
    const riseMm = Math.abs(grade) * (toMm - fromMm)
    return {
      rule: 'maximum-grade',
      severity: 'warn',
      track: name,
      element: elementAt(placed, fromMm).index,
      message: `From ${formatMm(fromMm)} to ${formatMm(toMm)} the grade is ${gradePct.toFixed(2)} %; the limit is ${maximumGradePct} %.`,
      measured: gradePct,
      limit: maximumGradePct,
      unit: '%',
      cure:
        maximumGradePct > 0
          ? `Spread the height difference of ${formatMm(riseMm)} over ${formatMm((riseMm / maximumGradePct) * 100)}, or reduce it by ${formatMm(riseMm - ((toMm - fromMm) * maximumGradePct) / 100)}.`
          : 'Lay this stretch level.',
    }
  })
