import { formatMm } from '../measure/length.ts'
import type { Network } from '../network/network.ts'
import { type Short, shortsOf } from '../network/polarity.ts'
import type { Finding } from './finding.ts'

/** Breaks around a reverse loop or wye: both ends of one section of it. */
const BREAKS_NEEDED = 2

/** Reverse loops and wyes of powered track that make a short circuit, one finding each. */
export function polarityFindings(network: Network): Finding[] {
  return shortsOf(network).map((short): Finding => {
    const { kind, breaks, track } = short
    const there = breaks === 0 ? 'no insulated break in it' : 'an insulated break at one end of it only'
    return {
      rule: kind === 'loop' ? 'polarity-loop' : 'polarity-wye',
      severity: 'stop',
      track: network.tracks[track]!.name,
      element: null,
      message: `${called(short)} leads the left rail to the right rail, with ${there}: a short circuit.`,
      measured: breaks,
      limit: BREAKS_NEEDED,
      unit: null,
      cure: cureOf(short, network),
    }
  })
}

function called({ kind, turnouts }: Short): string {
  const at = turnouts.length === 0 ? '' : ` at ${turnouts.join(', ')}`
  return `The ${kind === 'loop' ? 'reverse loop' : 'wye'}${at}`
}

function cureOf({ breakAt }: Short, { tracks }: Network): string {
  const [first, second] = breakAt.map(({ track, atMm }) => `${tracks[track]!.name} at ${formatMm(atMm, 0)}`)
  const where = first && second ? `on ${first} and on ${second}` : 'at both ends of one side, and make room for them'
  return `Put insulated joints in both rails ${where}, and feed the track between them through a reversing switch.`
}
