import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import type { Rule } from './checked-track.ts'

/** NEM 113: no transition is needed above a radius of 60 gauges. */
const GAUGES_WITHOUT_EASEMENT = 60

/**
 * Where curvature jumps from one element to the next, a car is thrown sideways as by a curve of radius 1/|κ2 − κ1|
 * beginning there. It gets a note where that radius is under 60 gauges.
 */
export const curvatureJump: Rule = ({ name, closed, gaugeMm, placed }) => {
  const limitMm = GAUGES_WITHOUT_EASEMENT * gaugeMm
  return placed.flatMap((element, index) => {
    const before = index === 0 ? (closed ? placed.at(-1) : undefined) : placed[index - 1]
    if (!before) return []
    const worthMm = 1 / Math.abs(element.startCurvature - before.endCurvature)
    if (!exceeds(limitMm, worthMm)) return []
    return {
      rule: 'curvature-jump',
      severity: 'note',
      track: name,
      element: index,
      message: `The curvature changes abruptly here, as at the start of a ${formatMm(worthMm)} radius curve; below ${formatMm(limitMm)} (60 gauges) NEM 113 requires an easement.`,
      measured: worthMm,
      limit: limitMm,
      unit: 'mm',
      cure: 'Put an easement between the two elements; the length of the longest car is a good start.',
    }
  })
}
