import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import type { Network } from '../network/network.ts'
import { type Lead, leadsOf, type Siding, sidingsOf } from '../network/sidings.ts'
import type { StandingRoom, Stock } from '../network/standing-room.ts'
import type { Finding } from './finding.ts'

/**
 * Sidings too short for what is to stand on them, and leads too short for a train or an engine to change from one leg of
 * a turnout to the other. A passing siding is there for a train, if the plan has any; a spur for one car at least.
 */
export function foulingFindings(network: Network, room: StandingRoom, stock: Stock): Finding[] {
  const sidings = sidingsOf(network)
  const clearMm = (track: number) =>
    Math.max(0, ...room.standing.filter((each) => each.track === track).map((each) => each.clearMm))
  return [
    ...sidings.flatMap((siding) => tooShort(siding, clearMm(siding.track), network, stock)),
    ...leadFindings(network, sidings, clearMm, stock),
  ]
}

function tooShort(siding: Siding, clearMm: number, { tracks }: Network, { trains, carMm }: Stock): Finding[] {
  const { name } = tracks[siding.track]!
  const at = siding.turnouts.join(' and ')
  const finding = (severity: 'warn' | 'note', limitMm: number, what: string): Finding => ({
    rule: 'fouling',
    severity,
    track: name,
    element: null,
    message: `Between the fouling points of ${at} ${clearMm === 0 ? 'nothing' : `only ${formatMm(clearMm)}`} of ${name} is clear: ${what}.`,
    measured: clearMm,
    limit: limitMm,
    unit: 'mm',
    cure: `Make ${name} ${formatMm(limitMm - clearMm)} longer${siding.kind === 'passing' ? `, and ${tracks[siding.host]!.name} between ${at} by as much` : ''}.`,
  })
  if (siding.kind === 'passing' && trains.length > 0) {
    const byLength = trains.toSorted((a, b) => a.lengthMm - b.lengthMm)
    const [shortest, longest] = [byLength[0]!, byLength.at(-1)!]
    const isAny = !exceeds(shortest.lengthMm, clearMm)
    if (!isAny)
      return [
        finding('warn', shortest.lengthMm, `the train ${shortest.name}, ${formatMm(shortest.lengthMm)}, does not fit`),
      ]
    if (!exceeds(longest.lengthMm, clearMm)) return []
    const left = byLength.filter(({ lengthMm }) => exceeds(lengthMm, clearMm)).map((train) => train.name)
    return [finding('note', longest.lengthMm, `${left.join(', ')} must meet shorter trains here`)]
  }
  if (carMm === null || !exceeds(carMm, clearMm)) return []
  return [finding('warn', carMm, `not even one car of ${formatMm(carMm)} stands clear`)]
}

/** An engine has to run round its train at a passing siding; at other turnouts a train has to change from leg to leg. */
function leadFindings(
  network: Network,
  sidings: readonly Siding[],
  clearMm: (track: number) => number,
  { trains }: Stock,
): Finding[] {
  if (trains.length === 0) return []
  const shortestMm = Math.min(...trains.map(({ lengthMm }) => lengthMm))
  return leadsOf(network).flatMap((lead): Finding[] => {
    const passing = sidings.find(({ kind, turnouts }) => kind === 'passing' && turnouts.includes(lead.turnout.name))
    if (!passing) {
      if (!exceeds(shortestMm, lead.lengthMm)) return []
      return [
        leadFinding(
          { rule: 'switchback', limitMm: shortestMm, what: 'no train can go from one leg to the other' },
          lead,
          network,
        ),
      ]
    }
    const standing = trains.filter(({ lengthMm }) => !exceeds(lengthMm, clearMm(passing.track)))
    const engineMm = Math.max(0, ...standing.map((train) => train.engineMm))
    if (!exceeds(engineMm, lead.lengthMm)) return []
    const { name } = network.tracks[passing.track]!
    return [
      leadFinding(
        { rule: 'runaround', limitMm: engineMm, what: `no engine of ${formatMm(engineMm)} can run round on ${name}` },
        lead,
        network,
      ),
    ]
  })
}

function leadFinding(
  { rule, limitMm, what }: { readonly rule: string; readonly limitMm: number; readonly what: string },
  { turnout, track, lengthMm }: Lead,
  { tracks }: Network,
): Finding {
  return {
    rule,
    severity: 'note',
    track: tracks[track]!.name,
    element: turnout.element,
    message: `Before the points of ${turnout.name} the track ends after ${formatMm(lengthMm)}: ${what}.`,
    measured: lengthMm,
    limit: limitMm,
    unit: 'mm',
    cure: `Put ${formatMm(limitMm - lengthMm)} more track before the points of ${turnout.name}.`,
  }
}
