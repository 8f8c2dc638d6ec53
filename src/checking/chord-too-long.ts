import type { ChordLeftOut } from '../bending/bends.ts'
import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'

/** Chords that do not fit a bend: one note for each arc and chord, whichever of its rails it is. */
export function chordTooLong(track: string, leftOut: readonly ChordLeftOut[]): Finding[] {
  const misfits = new Map<string, { element: number; chordMm: number; bendLengthMm: number; rails: string[] }>()
  for (const { element, rail, chordMm, bendLengthMm } of leftOut) {
    const key = `${element} ${chordMm}`
    const known = misfits.get(key)
    if (known) known.rails.push(rail)
    else misfits.set(key, { element, chordMm, bendLengthMm, rails: [rail] })
  }
  return [...misfits.values()]
    .sort((a, b) => a.element - b.element || a.chordMm - b.chordMm)
    .map(({ element, chordMm, bendLengthMm, rails }) => ({
      rule: 'chord-too-long',
      severity: 'note',
      track,
      element,
      message: `A chord of ${formatMm(chordMm)} does not fit ${rails.length > 1 ? 'these bends' : `the ${rails[0]} bend`} (${formatMm(bendLengthMm)} long); its ordinates are omitted.`,
      measured: chordMm,
      limit: bendLengthMm,
      unit: 'mm',
      cure: 'Use a shorter chord for this bend: add one under "chords".',
    }))
}
