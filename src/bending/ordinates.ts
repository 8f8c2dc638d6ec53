/**
 * Ordinate of a circular arc over its chord, mm: the distance of the arc from the chord at `fromMiddleMm` from its
 * middle.
 *
 * y = √(R² − x²) − √(R² − C²/4), computed as (C/2 − x)(C/2 + x) / (√(R² − x²) + √(R² − C²/4))
 *
 * R radius, C chord, x distance from the chord's middle, mm. The second form is the same number without the
 * subtraction, so a nearly straight rail keeps its precision. Range: 0 ≤ |x| ≤ C/2, 0 < C ≤ 2R; null outside it (no
 * such chord fits into the circle). Source: the field books' M = R − √(R² − (C/2)²) at x = 0;
 * tests/published/surveyors-field-book-mid-ordinates.test.ts, tests/bending/ordinates.test.ts.
 */
export function ordinateAtMm(radiusMm: number, chordMm: number, fromMiddleMm: number): number | null {
  const half = chordMm / 2
  const x = Math.abs(fromMiddleMm)
  if (!(radiusMm > 0 && half > 0 && half <= radiusMm && x <= half)) return null
  const heightAtX = Math.sqrt((radiusMm - x) * (radiusMm + x))
  const heightAtEnd = Math.sqrt((radiusMm - half) * (radiusMm + half))
  const sum = heightAtX + heightAtEnd
  return sum === 0 ? 0 : ((half - x) * (half + x)) / sum
}

/** Ordinate at the middle of the chord, mm; null when the chord is longer than the diameter. See `ordinateAtMm`. */
export function midOrdinateMm(radiusMm: number, chordMm: number): number | null {
  return ordinateAtMm(radiusMm, chordMm, 0)
}

/** Ordinate at the quarter points of the chord, mm; about ¾ of the middle one. Null as `midOrdinateMm`. */
export function quarterOrdinateMm(radiusMm: number, chordMm: number): number | null {
  return ordinateAtMm(radiusMm, chordMm, chordMm / 4)
}

/**
 * Radius of the arc with the ordinate `midMm` at the middle of a chord, mm: R = C²/(8M) + M/2, exact (the inverse of
 * `midOrdinateMm`). It keeps the sign of the ordinate: a reading that bends the other way has a negative radius. Null
 * for M = 0 (straight). Range: C > 0. Source: the field books' formula; tests/bending/ordinates.test.ts.
 */
export function radiusFromMidOrdinateMm(chordMm: number, midMm: number): number | null {
  if (midMm === 0) return null
  return (chordMm * chordMm) / (8 * midMm) + midMm / 2
}

/**
 * Length of the (shorter) arc over a chord, mm: 2·R·asin(C/2R). Null when the chord is longer than the diameter.
 * Closed form; tests/bending/ordinates.test.ts, tests/published/mil-hdbk-1005-6-degree-of-curve.test.ts.
 */
export function arcOfChordMm(radiusMm: number, chordMm: number): number | null {
  if (!(radiusMm > 0 && chordMm >= 0 && chordMm <= 2 * radiusMm)) return null
  return 2 * radiusMm * Math.asin(chordMm / (2 * radiusMm))
}
