import { sum } from '../measure/sum.ts'
import type { Network } from './network.ts'
import type { NetworkTurnout } from './track.ts'

/** Two turnouts whose points face each other, with nothing but plain track between them. */
export interface FacingPoints {
  /** Indices of the tracks on which they lie. */
  readonly tracks: readonly [number, number]
  readonly turnouts: readonly [NetworkTurnout, NetworkTurnout]
  readonly betweenMm: number
}

/** Every such pair, once. */
export function facingPoints({ stretches, links, points }: Network): FacingPoints[] {
  return [...points].flatMap(([end, turnout]): FacingPoints[] => {
    let at = end
    let betweenMm = 0
    // Each stretch once at most: plain track may come round to where it began.
    for (let left = stretches.length; left > 0; left--) {
      const { pieces, legOf } = stretches[at >> 1]!
      if (legOf !== null) return []
      betweenMm += sum(pieces.map(({ lengthMm }) => lengthMm))
      const far = at ^ 1
      const other = points.get(far)
      if (other) {
        if (far < end) return []
        const tracks = [stretches[end >> 1]!.track, stretches[far >> 1]!.track] as const
        return [{ tracks, turnouts: [turnout, other], betweenMm }]
      }
      const next = links[far]!
      // Another turnout, passed from a leg, or an end of the track.
      if (next.length !== 1 || points.has(next[0]!)) return []
      at = next[0]!
    }
    return []
  })
}
