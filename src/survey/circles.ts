import type { Point } from '../track/sample.ts'

/** A point on a circle around a known place. */
export interface Circle {
  readonly centre: Point
  readonly radiusMm: number
  /** Of the radius, one standard deviation. */
  readonly errorMm: number
}

export type Crossing =
  | {
      readonly meets: true
      /** Left of the line from the first centre to the second. */
      readonly left: Point
      readonly right: Point
      /** Sine of the angle at which the circles cross. */
      readonly sine: number
      /** Whether they cross so flatly that within their errors they might as well touch. */
      readonly flat: boolean
    }
  | {
      readonly meets: false
      /** By how much they miss each other. */
      readonly gapMm: number
      /** Whether one lies inside the other, not beside it. */
      readonly isInside: boolean
    }

/** In standard deviations: what is larger does not come about by chance (one in a thousand, two-sided). */
export const MOST_BY_CHANCE = 3.29

/**
 * By how much more of the sum of squares, in standard deviations, one of two places has to fit before it is taken for the
 * right one.
 */
export const CLEARLY_BETTER = MOST_BY_CHANCE ** 2

/**
 * Where two circles meet. With c the distance of their centres, r1 and r2 their radii, s along the line of the centres
 * and h off it, mm:
 *
 * s = (c² + r1² − r2²)/(2c),  h = √(r1² − s²),  sin θ = c·h/(r1·r2)
 * σ_h = σ·√((s/r1)² + ((s − c)/r2)²)/sin θ     error of h from errors σ of both radii (linear)
 *
 * θ is the angle between the circles. They cross flatly where h is less than 3.29 σ_h: then it is not even sure on which
 * side of the line they meet. Range: c > 0. Source: plane geometry; σ_h by propagation of errors, as surveying textbooks
 * have it. Checked in tests/survey/parts.test.ts.
 */
export function crossingOf(first: Circle, second: Circle): Crossing | null {
  const [dx, dy] = [second.centre.xMm - first.centre.xMm, second.centre.yMm - first.centre.yMm]
  const c = Math.hypot(dx, dy)
  const [r1, r2] = [first.radiusMm, second.radiusMm]
  if (c === 0) return null
  if (c > r1 + r2) return { meets: false, gapMm: c - r1 - r2, isInside: false }
  if (c < Math.abs(r1 - r2)) return { meets: false, gapMm: Math.abs(r1 - r2) - c, isInside: true }
  const s = (c * c + (r1 - r2) * (r1 + r2)) / (2 * c)
  const h = Math.sqrt(Math.max(0, (r1 - s) * (r1 + s)))
  const sine = (c * h) / (r1 * r2)
  const errorMm = Math.hypot((first.errorMm * (s - c)) / r2, (second.errorMm * s) / r1) / sine
  const at = (offMm: number): Point => ({
    xMm: first.centre.xMm + (s * dx - offMm * dy) / c,
    yMm: first.centre.yMm + (s * dy + offMm * dx) / c,
  })
  return { meets: true, left: at(h), right: at(-h), sine, flat: !(h > MOST_BY_CHANCE * errorMm) }
}

/** Whether two circles miss each other by no more than the errors of their radii explain. */
export function touchesByChance(gapMm: number, first: Circle, second: Circle): boolean {
  return gapMm <= MOST_BY_CHANCE * Math.hypot(first.errorMm, second.errorMm)
}

/** How far a point is left of the line from one place to another; negative to the right. */
export function leftOf(from: Point, to: Point, { xMm, yMm }: Point): number {
  const [dx, dy] = [to.xMm - from.xMm, to.yMm - from.yMm]
  return (dx * (yMm - from.yMm) - dy * (xMm - from.xMm)) / Math.hypot(dx, dy)
}
