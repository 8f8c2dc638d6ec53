import type { Side } from '../plan/rows/survey.ts'
import type { Point } from '../track/sample.ts'
import { leftOf } from './circles.ts'

/** A peg that others are set out from. */
export interface KnownPeg extends Point {
  readonly name: string
  readonly elevationMm: number | null
}

export interface PegOut {
  readonly first: TapeFrom
  readonly second: TapeFrom
  /** Of the line from the first peg to the second. */
  readonly side: Side
  /** How far from its place a peg comes to stand: one standard deviation. */
  readonly errorMm: number
}

interface TapeFrom {
  readonly peg: string
  readonly levelMm: number
  /** Along the slope; null where an elevation is not known. */
  readonly slopeMm: number | null
}

/** The circles of two tapes have to cross at 10° at least to mark a point. */
const LEAST_SINE = Math.sin(Math.PI / 18)
/** Angles that differ by less are equally good; then the shorter tapes win. */
const AS_GOOD = 1e-9

/**
 * The two pegs that a place is best marked from by their distances, with tapes that each err by σ: the place errs by
 * σ·√2/sin θ, θ the angle between the two directions, so they are the pegs whose directions are nearest to a right angle.
 * Of pairs as good as each other, the one with the shorter tapes. Null where no two pegs are 10° out of line. Source: error
 * propagation; checked in tests/survey/parts.test.ts.
 */
export function pegOutOf(
  place: Point,
  elevationMm: number | null,
  pegs: readonly KnownPeg[],
  tapeErrorMm: number,
): PegOut | null {
  let best: { first: KnownPeg; second: KnownPeg; sine: number; longestMm: number } | null = null
  for (const [at, first] of pegs.entries())
    for (const second of pegs.slice(at + 1)) {
      const sine = sineBetween(place, first, second)
      const longestMm = Math.max(apart(place, first), apart(place, second))
      const isBetter = !best || sine > best.sine + AS_GOOD || (sine > best.sine - AS_GOOD && longestMm < best.longestMm)
      if (sine >= LEAST_SINE && isBetter) best = { first, second, sine, longestMm }
    }
  if (!best) return null
  const { first, second, sine } = best
  const from = (peg: KnownPeg): TapeFrom => {
    const levelMm = apart(place, peg)
    const isKnown = elevationMm !== null && peg.elevationMm !== null
    return { peg: peg.name, levelMm, slopeMm: isKnown ? Math.hypot(levelMm, elevationMm - peg.elevationMm!) : null }
  }
  return {
    first: from(first),
    second: from(second),
    side: leftOf(first, second, place) > 0 ? 'left' : 'right',
    errorMm: (tapeErrorMm * Math.SQRT2) / sine,
  }
}

function apart(a: Point, b: Point): number {
  return Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm)
}

/** 0 for a place that is one of the pegs. */
function sineBetween(place: Point, a: Point, b: Point): number {
  const [ax, ay, bx, by] = [a.xMm - place.xMm, a.yMm - place.yMm, b.xMm - place.xMm, b.yMm - place.yMm]
  const product = Math.hypot(ax, ay) * Math.hypot(bx, by)
  return product === 0 ? 0 : Math.abs(ax * by - ay * bx) / product
}
