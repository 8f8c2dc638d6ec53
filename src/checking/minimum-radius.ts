import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import type { Rule } from './checked-track.ts'

/**
 * An arc tighter than the minimum radius of the cars stops the plan. Easements are never tighter than the arcs beside
 * them.
 */
export const minimumRadius: Rule = ({ name, placed }, { minimumRadius: minimumRadiusMm }) => {
  if (minimumRadiusMm === null) return []
  return placed.flatMap(({ kind, index, startCurvature }) => {
    const radiusMm = 1 / Math.abs(startCurvature)
    if (kind !== 'arc' || !exceeds(minimumRadiusMm, radiusMm)) return []
    return {
      rule: 'minimum-radius',
      severity: 'stop',
      track: name,
      element: index,
      message: `This curve has a radius of ${formatMm(radiusMm)}; the minimum is ${formatMm(minimumRadiusMm)}.`,
      measured: radiusMm,
      limit: minimumRadiusMm,
      unit: 'mm',
      cure: `Increase it to ${formatMm(minimumRadiusMm)} or more (diameter ${formatMm(2 * minimumRadiusMm)}).`,
    }
  })
}
