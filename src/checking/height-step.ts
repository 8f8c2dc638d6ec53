import { formatMm } from '../measure/length.ts'
import { type HeightStep, heightOf, type LevelledTrack } from '../network/height-steps.ts'
import type { Finding } from './finding.ts'

/** Joiners bend rail over so many tolerances at most; beyond that rail ends do not meet. Own choice, no source. */
const TOLERANCES_TO_WARN = 2

/** Ends of two tracks that meet, but not at one height. */
export function heightStepFindings(
  steps: readonly HeightStep[],
  tracks: readonly LevelledTrack[],
  limitMm: number,
): Finding[] {
  return steps.map(({ own, other, stepMm }) => {
    const [track, there] = [tracks[own.track]!.name, tracks[other.track]!.name]
    const measured = Math.abs(stepMm)
    return {
      rule: 'height-step',
      severity: measured > TOLERANCES_TO_WARN * limitMm ? 'stop' : 'warn',
      track,
      element: null,
      message: `The ${own.end} of ${track} lies on the ${other.end} of ${there}, ${formatMm(measured)} ${stepMm > 0 ? 'above' : 'below'} it; the joints can take up ${formatMm(limitMm)}.`,
      measured,
      limit: limitMm,
      unit: 'mm',
      cure: `Bring the ${own.end} of ${track} to ${formatMm(heightOf(other, tracks))}, or the ${other.end} of ${there} to ${formatMm(heightOf(own, tracks))}.`,
    }
  })
}
