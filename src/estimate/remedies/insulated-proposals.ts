import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { exceeds } from '../../measure/counting.ts'
import { networkOf } from '../../network/network.ts'
import { shortsOf } from '../../network/polarity.ts'
import type { Line } from './line.ts'

/** Insulated breaks at both ends of a reverse loop, or of one side of a wye. */
export function insulatedProposals({ rule }: Finding, { tracks, plan }: Line, track: number): Patch[] {
  const kind = rule === 'polarity-loop' ? 'loop' : 'wye'
  return shortsOf(networkOf(tracks, plan.standards))
    .filter((short) => short.kind === kind && short.track === track && short.breakAt.length === 2)
    .map(({ breakAt }) => {
      const ofTracks = [...new Set(breakAt.map((place) => place.track))]
      return ofTracks.flatMap((index) => {
        const added = breakAt.filter((place) => place.track === index).map(({ atMm }) => atMm)
        return breaksAdded(index, tracks[index]!.breaks, added)
      })
    })
}

/** In the order of the track; a break that is there already stays as it is. */
function breaksAdded(track: number, breaks: Line['tracks'][number]['breaks'], added: readonly number[]): Patch {
  const missing = added.filter((mm) => !breaks.some(({ at }) => !exceeds(Math.abs(at - mm), 0)))
  const path = `/tracks/${track}/breaks`
  const there = breaks.map(({ at }) => at)
  const steps: Patch = there.length === 0 ? [{ op: 'add', path, value: [] }] : []
  for (const at of missing) {
    const before = there.filter((mm) => mm < at).length
    steps.push({
      op: 'add',
      path: `${path}/${before === there.length ? '-' : before}`,
      value: { at, kind: 'insulated' },
    })
    there.push(at)
  }
  return steps
}
