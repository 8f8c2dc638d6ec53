import { runLengthMm } from './lines.ts'
import type { Network } from './network.ts'
import type { NetworkTurnout } from './track.ts'

/** A track between two turnouts of one other track, or one that ends free. */
export interface Siding {
  /** Index of the track. */
  readonly track: number
  readonly kind: 'passing' | 'spur'
  /** The names of its turnouts: two of a passing siding, one of a spur. */
  readonly turnouts: readonly string[]
  /** Index of the track on which they lie. */
  readonly host: number
}

/** Tracks that leave a turnout by a leg: to come back to another of the same track, or to end. */
export function sidingsOf(network: Network): Siding[] {
  const { tracks } = network
  const host = new Map(tracks.flatMap(({ turnouts }, index) => turnouts.map(({ name }) => [name, index] as const)))
  return tracks.flatMap((track, index): Siding[] => {
    const { legs, state, closed } = track
    if (state === 'lifted' || closed) return []
    const [start, end] = [legs.start, legs.end].map((leg) => (leg && leg.leg !== 'points' ? leg.turnout : null))
    if (start && end) {
      const [one, other] = [host.get(start)!, host.get(end)!]
      if (one !== other || start === end || one === index) return []
      return [{ track: index, kind: 'passing', turnouts: [start, end], host: one }]
    }
    const name = start ?? end
    return name && isFree(index, start ? 'end' : 'start', network)
      ? [{ track: index, kind: 'spur', turnouts: [name], host: host.get(name)! }]
      : []
  })
}

function isFree(track: number, end: 'start' | 'end', { tracks, stretches, links }: Network): boolean {
  const { joinsExisting, lengthMm } = tracks[track]!
  if (joinsExisting[end]) return false
  const at = stretches.findIndex(
    (each) =>
      each.track === track && each.legOf === null && (end === 'start' ? each.fromMm === 0 : each.toMm === lengthMm),
  )
  return links[2 * at + (end === 'start' ? 0 : 1)]!.length === 0
}

/** Track before the points of a turnout that ends: a train that goes from one leg to the other has to stand on it. */
export interface Lead {
  readonly turnout: NetworkTurnout
  /** Index of the track of the turnout. */
  readonly track: number
  readonly lengthMm: number
  /** The free end of a track at which it ends. */
  readonly endsAt: { readonly track: number; readonly end: 'start' | 'end' }
}

/** The leads of turnouts with tracks at both legs; not where more turnouts or existing track lie before the points. */
export function leadsOf(network: Network): Lead[] {
  const { points, links, stretches, tracks } = network
  return [...points].flatMap(([tail, turnout]): Lead[] => {
    if (links[tail]!.length < 2) return []
    const { track } = stretches[tail >> 1]!
    const on = new Set<number>()
    let lengthMm = 0
    for (let run: number | undefined = tail; run !== undefined && !on.has(run); ) {
      on.add(run)
      lengthMm += runLengthMm(run, network)
      const leaves: number = run ^ 1
      const next: readonly number[] = links[leaves]!
      if (next.length === 0) {
        const last = stretches[run >> 1]!.track
        const { joinsExisting, legs } = tracks[last]!
        const end = leaves % 2 === 0 ? 'start' : 'end'
        return joinsExisting[end] || legs[end] ? [] : [{ turnout, track, lengthMm, endsAt: { track: last, end } }]
      }
      if (points.has(leaves) || points.has(next[0]!)) return []
      run = next[0]
    }
    return []
  })
}
