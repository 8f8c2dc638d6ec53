import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import type { Rule } from './checked-track.ts'
import type { Finding } from './finding.ts'

/**
 * An arc tighter than the minimum radius of the cars stops the plan, and so does the closure of a turnout, whichever way
 * the track goes through it. Easements are never tighter than the arcs beside them.
 */
export const minimumRadius: Rule = ({ name, placed, turnouts = [] }, { minimumRadius: minimumRadiusMm }) => {
  if (minimumRadiusMm === null) return []
  const ofClosures = turnouts.flatMap(({ element, name: turnout, closureRadiusMm }): Finding[] => {
    if (!exceeds(minimumRadiusMm, closureRadiusMm)) return []
    return [
      {
        rule: 'minimum-radius',
        severity: 'stop',
        track: name,
        element,
        message: `The closure of turnout ${turnout} has a radius of ${formatMm(closureRadiusMm)}; the minimum is ${formatMm(minimumRadiusMm)}.`,
        measured: closureRadiusMm,
        limit: minimumRadiusMm,
        unit: 'mm',
        cure: 'Use a turnout with a larger frog number, or with less straight at the toe of its frog.',
      },
    ]
  })
  const ofArcs = placed.flatMap(({ kind, index, startCurvature }): Finding[] => {
    const radiusMm = 1 / Math.abs(startCurvature)
    if (kind !== 'arc' || !exceeds(minimumRadiusMm, radiusMm)) return []
    return [
      {
        rule: 'minimum-radius',
        severity: 'stop',
        track: name,
        element: index,
        message: `This curve has a radius of ${formatMm(radiusMm)}; the minimum is ${formatMm(minimumRadiusMm)}.`,
        measured: radiusMm,
        limit: minimumRadiusMm,
        unit: 'mm',
        cure: `Increase it to ${formatMm(minimumRadiusMm)} or more (diameter ${formatMm(2 * minimumRadiusMm)}).`,
      },
    ]
  })
  return [...ofArcs, ...ofClosures]
}
