import type { Ordinates } from '../../../bending/bends.ts'
import { sheetOf } from '../../../bending/bends.ts'
import { formatMm, MM_PER_INCH } from '../../../measure/length.ts'
import type { LengthsIn } from '../../show-length.ts'

/** Rules and straightedges that people own (common practice, no source). */
const OWNED_INCHES = [12, 18, 24, 36].map((inches) => inches * MM_PER_INCH)
const OWNED_MM = [300, 500, 1000]

/** A chord as it is called: `12 in` or `500 mm`, whatever the units of the page. */
export function chordName(chordMm: number): string {
  const inches = chordMm / MM_PER_INCH
  const isInches = Math.abs(inches - Math.round(inches)) < 1e-6
  return isInches ? `${Math.round(inches)} in` : formatMm(chordMm, 1)
}

/** The chords to choose from: those of the plan, or those people own in the units of the page. */
export function chordsToHand(given: readonly number[] | undefined, lengthsIn: LengthsIn): readonly number[] {
  if (given && given.length > 0) return given
  return lengthsIn === 'feet' ? OWNED_INCHES : lengthsIn === 'metric' ? OWNED_MM : [...OWNED_INCHES, ...OWNED_MM]
}

/**
 * The chord to check a bend with and its ordinates: the shortest that measures the radius well enough, or else the
 * longest that fits; null where none fits.
 *
 * @param bendMm length of the bend on the piece
 */
export function checkChord(
  measuredRadiusMm: number,
  bendMm: number,
  chordsMm: readonly number[],
  resolutionMm: number,
): Ordinates | null {
  const { ordinates, recommendedChordMm } = sheetOf(measuredRadiusMm, bendMm, { chordsMm, resolutionMm })
  const longestFirst = ordinates.toSorted((a, b) => b.chordMm - a.chordMm)
  return ordinates.find(({ chordMm }) => chordMm === recommendedChordMm) ?? longestFirst[0] ?? null
}
