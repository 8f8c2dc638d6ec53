/**
 * A crossover between parallel straight tracks, and the ladder of a yard.
 *
 * frog to frog along the track      (p − g)·cot F − g/sin F
 * straight on the crossover         (p − g − g·cos F)/sin F
 * intersection to intersection      p·cot F
 * spacing of turnouts on a ladder   p/sin F
 *
 * p distance of the centre lines, g gauge, F angle of the frog; frog points are the theoretical ones, the intersection that
 * of the two centre lines of a turnout. Range: p ≥ g·(1 + cos F). Source: field-book practice, from memory; checked in
 * tests/published/crossover-between-parallels.test.ts.
 */
export function crossoverOf(spacingMm: number, gaugeMm: number, frogRad: number) {
  const sin = Math.sin(frogRad)
  const cos = Math.cos(frogRad)
  return {
    frogToFrogMm: ((spacingMm - gaugeMm) * cos - gaugeMm) / sin,
    straightMm: (spacingMm - gaugeMm - gaugeMm * cos) / sin,
    intersectionsMm: (spacingMm * cos) / sin,
    ladderMm: spacingMm / sin,
  }
}
