/**
 * A line over a vertical curve, by the distance s along the centre line from where it begins: its plan length grows by
 * `perMm + perMm2·s` for each mm of the centre line, and it rises by `grade + gradePerMm·s`.
 */
export interface CurvedLine {
  readonly perMm: number
  readonly perMm2: number
  readonly grade: number
  readonly gradePerMm: number
}

/** Nodes and weights of Gauss and Legendre on [−1, 1] (Abramowitz and Stegun, table 25.4, n = 8), the positive half. */
const NODES = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363]
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763]

/** Change of the grade within one panel of the quadrature. */
const PANEL = 0.2

/**
 * Length of a line over a vertical curve from its beginning to s, mm:
 *
 * ∫ √((p + q·t)² + (g + c·t)²) dt, t = 0 … s
 *
 * p `perMm`, q `perMm2`, g `grade`, c `gradePerMm`. It has a closed form, which loses all digits where the curve is flat;
 * eight nodes for each fifth of a change in grade are exact to 1e-15. Range: p > 0.2, |q|·s < 0.5·p. Checked against the closed form
 * of a parabola and a fine polygon in tests/track/curved-length.test.ts.
 */
export function curvedLengthMm(line: CurvedLine, s: number): number {
  const panels = Math.max(1, Math.ceil(Math.abs(line.gradePerMm * s) / PANEL))
  const half = s / panels / 2
  let lengthMm = 0
  for (let panel = 0; panel < panels; panel++) {
    const middle = (2 * panel + 1) * half
    for (const [index, node] of NODES.entries())
      lengthMm += WEIGHTS[index]! * half * (slant(line, middle - node * half) + slant(line, middle + node * half))
  }
  return lengthMm
}

function slant({ perMm, perMm2, grade, gradePerMm }: CurvedLine, t: number): number {
  return Math.hypot(perMm + perMm2 * t, grade + gradePerMm * t)
}

/** More are never needed: the length is nearly proportional to s. */
const MOST_STEPS = 20

/** The distance along the centre line at which a line is so long; the inverse of `curvedLengthMm`, by Newton's method. */
export function alongAtLengthMm(line: CurvedLine, lengthMm: number, longestMm: number): number {
  let s = Math.min(lengthMm / slant(line, 0), longestMm)
  for (let step = 0; step < MOST_STEPS; step++) {
    const move = (lengthMm - curvedLengthMm(line, s)) / slant(line, s)
    s = Math.min(Math.max(s + move, 0), longestMm)
    if (Math.abs(move) <= 1e-14 * longestMm) break
  }
  return s
}
