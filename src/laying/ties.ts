import { piecesToCover, wholePiecesIn } from '../measure/counting.ts'

/**
 * Ties under a track.
 *
 * open: ⌊L/s⌋ + 1, from the first at station 0 at the given spacing; closed: ⌈L/s⌉, evenly spread around the loop.
 * An end that joins other track shares its neighbour's tie: one less for each such end.
 *
 * @param lengthMm L, along the centre line
 * @param spacingMm s, centre to centre, > 0
 * @param sharedEnds ends that join other track, 0–2
 * @returns the count and the actual spacing; checked in tests/laying/ties.test.ts
 */
export function tiesUnder(
  lengthMm: number,
  spacingMm: number,
  closed: boolean,
  sharedEnds: number,
): { ties: number; tieSpacingMm: number } {
  if (closed) {
    const ties = Math.max(1, piecesToCover(lengthMm, spacingMm))
    return { ties, tieSpacingMm: lengthMm / ties }
  }
  return { ties: Math.max(0, wholePiecesIn(lengthMm, spacingMm) + 1 - sharedEnds), tieSpacingMm: spacingMm }
}
