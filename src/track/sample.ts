import { poseAlong } from './clothoid.ts'
import { type PlacedElement, partsOf } from './types.ts'

export interface Point {
  readonly xMm: number
  readonly yMm: number
}

/** A line parallel to the track as a polygon. */
export interface SampledLine {
  readonly points: readonly Point[]
  /**
   * No point of the true line is further from the polygon. More than was requested only when `mostChords` was reached.
   */
  readonly errorMm: number
}

const MOST_CHORDS = 20_000

/**
 * Points for drawing the line at `offsetLeftMm` from the centre line (0 the centre line itself, ± for the rails) so
 * that no chord leaves the line by more than `maxErrorMm`. The ends of every element are among the points.
 *
 * A curve of curvature ≤ K keeps within K·ℓ²/8 of a chord under ℓ of its length (for an arc r(1 − cos(ℓ/2r)) ≤ ℓ²/8r),
 * so an element of length ℓ takes n = ⌈ℓ·√(K/(8·error))⌉ chords, at least four per turn.
 *
 * Range: maxErrorMm > 0, |κ|·|offset| < 1. Never more than `mostChords` plus one chord per element: a line that would
 * take more is drawn more coarsely throughout, and `errorMm` says how coarsely.
 */
export function sampleLine(
  elements: readonly PlacedElement[],
  offsetLeftMm: number,
  maxErrorMm: number,
  mostChords: number = MOST_CHORDS,
): SampledLine {
  const placed = elements.flatMap(partsOf)
  const first = placed[0]
  if (!first) return { points: [], errorMm: 0 }
  const wanted = placed.map((element) => chordsFor(element, offsetLeftMm, maxErrorMm))
  const total = wanted.reduce((sum, chords) => sum + chords, 0)
  const share = Math.min(1, mostChords / total)
  const points = [pointBeside(first, 0, offsetLeftMm)]
  let errorMm = 0
  for (const [index, element] of placed.entries()) {
    const chords = Math.max(1, Math.floor(wanted[index]! * share))
    for (let chord = 1; chord <= chords; chord++) points.push(pointBeside(element, chord / chords, offsetLeftMm))
    errorMm = Math.max(errorMm, errorOf(element, offsetLeftMm, chords))
  }
  return { points, errorMm }
}

/** The largest curvature of the offset line, κ/(1 − o·κ), and a bound of its length, L·(1 − o·κ), over an element. */
function boundsOf(element: PlacedElement, offsetLeftMm: number): { curvature: number; lengthMm: number } {
  const { startCurvature: k0, endCurvature: k1 } = element
  const [from, to] = [1 - offsetLeftMm * k0, 1 - offsetLeftMm * k1]
  return {
    curvature: Math.max(Math.abs(k0 / from), Math.abs(k1 / to)),
    lengthMm: element.lengthMm * Math.max(from, to),
  }
}

const CHORDS_PER_TURN = 4

function chordsFor(element: PlacedElement, offsetLeftMm: number, maxErrorMm: number): number {
  const { curvature, lengthMm } = boundsOf(element, offsetLeftMm)
  const forError = lengthMm * Math.sqrt(curvature / (8 * maxErrorMm))
  const forTurning = (CHORDS_PER_TURN * curvature * lengthMm) / (2 * Math.PI)
  return Math.max(1, Math.ceil(Math.max(forError, forTurning)))
}

function errorOf(element: PlacedElement, offsetLeftMm: number, chords: number): number {
  const { curvature, lengthMm } = boundsOf(element, offsetLeftMm)
  return (curvature * (lengthMm / chords) ** 2) / 8
}

function pointBeside(element: PlacedElement, part: number, offsetLeftMm: number): Point {
  const { start, startCurvature, endCurvature, lengthMm } = element
  const at = part === 1 ? element.end : poseAlong(start, startCurvature, endCurvature, lengthMm, part * lengthMm)
  return {
    xMm: at.xMm - offsetLeftMm * Math.sin(at.headingRad),
    yMm: at.yMm + offsetLeftMm * Math.cos(at.headingRad),
  }
}
