import { formatMm } from '../measure/length.ts'
import { CouplerOffsets } from '../network/coupler-offsets.ts'
import type { CurvePlace, Reversal } from '../network/curves.ts'
import type { Network } from '../network/network.ts'
import { reversalsAcross } from '../network/reversals.ts'
import type { CoupledCar } from '../room/coupled-cars.ts'
import type { Finding } from './finding.ts'
import { couplersSaid, reverseCurveSeverity } from './reverse-curve-severity.ts'

/**
 * Reverse curves through turnouts and from one track to another. Where new track joins existing track directly, the check
 * of that join finds them (at-joins.ts).
 */
export function reverseAcross(
  network: Network,
  limitMm: number,
  cars: readonly CoupledCar[],
  maximumCouplerOffsetMm: number,
): Finding[] {
  const offsets = new CouplerOffsets(network, cars)
  return reversalsAcross(network, limitMm)
    .filter((reversal) => !isAtJoin(reversal, network))
    .map((reversal): Finding => {
      const { first, second, straightMm } = reversal
      const couplers = cars.length === 0 ? null : offsets.of(reversal)
      const betweenTurnouts = first.inTurnout && second.inTurnout
      const reverse = { straightMm, limitMm, betweenTurnouts, couplers, maximumCouplerOffsetMm }
      const said = couplers && couplersSaid(reverse, `at ${formatMm(couplers.atMm, 0)} of ${couplers.track}`)
      const between = straightMm === 0 ? 'no straight' : `only ${formatMm(straightMm)} of straight track`
      return {
        rule: 'reverse-curve',
        severity: reverseCurveSeverity(reverse),
        track: trackOf(second, network).name,
        element: second.element,
        message: `Reverse curve from ${called(first, network)} to ${called(second, network)}, with ${between} between the two curves; at least ${formatMm(limitMm)} is required.${said ?? ''}`,
        measured: straightMm,
        limit: limitMm,
        unit: 'mm',
        cure: `Put ${formatMm(limitMm - straightMm)} more straight track between the curves, or add easements to both.`,
      }
    })
}

function trackOf({ stretch }: CurvePlace, { stretches, tracks }: Network) {
  return tracks[stretches[stretch]!.track]!
}

function called(place: CurvePlace, network: Network): string {
  const { name, turnouts } = trackOf(place, network)
  const turnout = place.inTurnout && turnouts.find(({ element }) => element === place.element)
  return turnout ? turnout.name : `element ${place.element + 1} of ${name}`
}

function isAtJoin({ first, second }: Reversal, network: Network): boolean {
  if ([first, second].some(({ stretch }) => network.stretches[stretch]!.legOf !== null)) return false
  const [a, b] = [trackOf(first, network), trackOf(second, network)]
  const declared = [a, b].some(({ legs }) => legs.start !== null || legs.end !== null)
  return a.state !== b.state && !declared
}
