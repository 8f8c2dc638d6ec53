import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { facingPoints } from '../network/facing-points.ts'
import type { Network } from '../network/network.ts'
import type { Finding } from './finding.ts'

/**
 * Turnouts whose points face each other with less track between them than the longest car: a train would be on both at
 * once with one car. Common practice, no source. Behind the legs of a turnout the next may follow at once, as in a ladder.
 */
export function turnoutSpacing(network: Network, longestCarMm: number): Finding[] {
  return facingPoints(network)
    .filter(({ betweenMm }) => exceeds(longestCarMm, betweenMm))
    .map(({ tracks, turnouts: [one, other], betweenMm }): Finding => {
      const between = betweenMm === 0 ? 'no track' : `only ${formatMm(betweenMm)} of track`
      return {
        rule: 'turnout-spacing',
        severity: 'note',
        track: network.tracks[tracks[1]]!.name,
        element: other.element,
        message: `The points of ${one.name} and ${other.name} face each other with ${between} between them: less than the longest car, ${formatMm(longestCarMm)}.`,
        measured: betweenMm,
        limit: longestCarMm,
        unit: 'mm',
        cure: `Put ${formatMm(longestCarMm - betweenMm)} more straight track between them.`,
      }
    })
}
