import type { ChordLeftOut } from '../bending/bends.ts'
import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'

/** Chords that do not fit a bend: one note for each arc and chord, whichever of its rails it is. */
export function chordTooLong(track: string, leftOut: readonly ChordLeftOut[]): Finding[] {
  const found: Finding[] = []
  for (const { element, rail, chordMm, bendLengthMm } of leftOut) {
    const same = found.find((finding) => finding.element === element && finding.measured === chordMm)
    if (same) continue
    const both = leftOut.some((other) => other.element === element && other.chordMm === chordMm && other.rail !== rail)
    found.push({
      rule: 'chord-too-long',
      severity: 'note',
      track,
      element,
      message: `A chord of ${formatMm(chordMm)} does not fit ${both ? 'these bends' : `the ${rail} bend`} (${formatMm(bendLengthMm)} long); its ordinates are left out.`,
      measured: chordMm,
      limit: bendLengthMm,
      unit: 'mm',
      cure: 'Measure this bend with a shorter chord: name one under "chords".',
    })
  }
  return found.sort((a, b) => a.element! - b.element! || a.measured! - b.measured!)
}
