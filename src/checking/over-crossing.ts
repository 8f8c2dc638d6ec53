import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { type CrossedTrack, type OverCrossing, runOutMm } from '../network/over-crossings.ts'
import type { Profile } from '../track/grade.ts'
import type { Finding } from './finding.ts'

export interface BridgeRules {
  readonly clearanceMm: number
  /** The plan says so, or its cars do; otherwise it is a guess. */
  readonly isGiven: boolean
  readonly deckMm: number
  readonly maximumGradePct: number
}

interface BridgeTrack {
  readonly name: string
  readonly state: 'new' | 'existing' | 'lifted'
  readonly closed: boolean
  readonly lengthMm: number
  readonly profile: Profile
}

/** Where a track passes over another with too little height below it. */
export function overCrossingFindings(
  bridges: readonly OverCrossing[],
  tracks: readonly BridgeTrack[],
  rules: BridgeRules,
): Finding[] {
  return bridges
    .filter(({ clearMm }) => exceeds(rules.clearanceMm, clearMm))
    .map(({ upper, lower, apartMm, clearMm }): Finding => {
      const { clearanceMm, isGiven, deckMm, maximumGradePct } = rules
      const [above, below] = [tracks[upper.track]!, tracks[lower.track]!]
      const itself = above === below ? 'itself' : below.name
      const missingMm = clearanceMm - clearMm
      return {
        rule: 'over-crossing',
        severity: isGiven ? 'stop' : 'warn',
        track: above.name,
        element: upper.element,
        message: `${above.name} passes over ${itself} at ${formatMm(upper.atMm, 0)} from its start, ${formatMm(lower.atMm, 0)} from that of the lower track, ${formatMm(apartMm)} from rail to rail: under the rails and ${formatMm(deckMm)} of ties and deck, ${formatMm(clearMm)} are free, and ${formatMm(clearanceMm)} are needed.`,
        measured: clearMm,
        limit: clearanceMm,
        unit: 'mm',
        cure: cureOf([upper, above], [lower, below], missingMm, maximumGradePct),
      }
    })
}

/** A track that is not there yet first, and of two such the one that takes less new ramp. */
function cureOf(
  [upper, above]: readonly [CrossedTrack, BridgeTrack],
  [lower, below]: readonly [CrossedTrack, BridgeTrack],
  missingMm: number,
  gradePct: number,
): string {
  const grade = gradePct / 100
  const ways = [
    { verb: 'Raise', track: above, ...runOutMm(above.profile, above, upper.atMm, missingMm, grade) },
    { verb: 'Lower', track: below, ...runOutMm(below.profile, below, lower.atMm, -missingMm, grade) },
  ]
  const ramps = ways.flatMap(({ verb, track, beforeMm, afterMm }) =>
    beforeMm === null || afterMm === null ? [] : [{ verb, track, beforeMm, afterMm, mm: beforeMm + afterMm }],
  )
  const by = formatMm(Math.ceil(missingMm * 10 - 1e-6) / 10)
  const said = ramps
    .toSorted((a, b) => Number(a.track.state !== 'new') - Number(b.track.state !== 'new') || a.mm - b.mm)
    .map(
      ({ verb, track, beforeMm, afterMm }) =>
        `${verb} ${track.name} there by ${by}: at ${gradePct} %, that changes its height from ${formatMm(Math.ceil(beforeMm - 0.05), 0)} before the crossing to ${formatMm(Math.ceil(afterMm - 0.05), 0)} beyond it`,
    )
  if (said.length > 0) return `${said.join('. Or ')}.`.replace('. Or R', '. Or r').replace('. Or L', '. Or l')
  return `${by} are missing, and neither track is long enough to be brought there at ${gradePct} %: make a thinner deck, or move the crossing.`
}
