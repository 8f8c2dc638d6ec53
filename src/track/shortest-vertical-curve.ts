/** A car as it runs over a change of grade, seen from the side. */
export interface CarOnGrades {
  readonly lengthMm: number
  readonly truckCentresMm: number
  readonly couplerMm: number
  /** Of what is lowest above the rails; null: unknown. */
  readonly undersideMm: number | null
}

export const VERTICAL_CURVE_REASONS = ['couplers', 'belly', 'ends'] as const
export type VerticalCurveReason = (typeof VERTICAL_CURVE_REASONS)[number]

export interface ShortestVerticalCurve {
  readonly reason: VerticalCurveReason
  readonly lengthMm: number
}

/**
 * How far a straight line over two points of a track is off it where the grade changes by A over the length L: at most
 *
 * y = A·m·(1 − t/2)   t = L/b ≤ 1
 * y = A·m/(2t)        t ≥ 1
 *
 * with b the length of track it depends on, and m how far it is off where the grade changes at one point. A rise over level
 * run, lengths in mm. The deviation is the integral of the bend of the track, A/L over a length L, times a triangle over b
 * that is m high; L is put where most of the triangle is above it. For a car with truck centres C, at its
 *
 * middle:  b = C,      m = C/4          far from the ends of the curve C²/8R, R = L/A
 * end:     b = C + o,  m = o            o beyond the truck: o(C + o)/2R
 *
 * Two couplers that meet at the end of a curve are apart by as much as one of them is off, as the other car is still on the
 * straight grade. Range: L ≥ 0, grades of some percent (angles stand for their tangents).
 * Checked by cars placed on parabolas in tests/track/shortest-vertical-curve.test.ts.
 */
export function offGradeMm(change: number, curveMm: number, { baseMm, peakMm }: Lever): number {
  const t = curveMm / baseMm
  return t <= 1 ? change * peakMm * (1 - t / 2) : (change * peakMm) / (2 * t)
}

/** A place of a car off the line through its trucks: the track it depends on, and how far it is off a sharp change. */
export interface Lever {
  readonly baseMm: number
  readonly peakMm: number
}

/** The same formula solved for L: 0 where even a sharp change is within what is allowed. */
function shortestMm(change: number, allowedMm: number, { baseMm, peakMm }: Lever): number {
  const q = allowedMm / (change * peakMm)
  if (q >= 1) return 0
  return q >= 0.5 ? baseMm * 2 * (1 - q) : baseMm / (2 * q)
}

export function bellyLever({ truckCentresMm }: CarOnGrades): Lever {
  return { baseMm: truckCentresMm, peakMm: truckCentresMm / 4 }
}

/** @param beyondMm how far it reaches beyond the end of the body */
export function endLever({ lengthMm, truckCentresMm }: CarOnGrades, beyondMm: number): Lever {
  const overhangMm = (lengthMm - truckCentresMm) / 2 + beyondMm
  return { baseMm: truckCentresMm + overhangMm, peakMm: overhangMm }
}

/**
 * The shortest vertical curves that a car needs where the grade changes, percent, each for its reason: that couplers stay
 * within `couplerMm` of each other in height; on a hump that the underside clears the rails between the trucks, in a sag
 * that the ends of the body clear them. What is not known is left out.
 */
export function shortestVerticalCurves(
  changePct: number,
  car: CarOnGrades,
  couplerMm: number | null,
): ShortestVerticalCurve[] {
  const change = Math.abs(changePct) / 100
  if (change === 0) return []
  const { undersideMm } = car
  const isHump = changePct < 0
  return [
    ...(couplerMm === null
      ? []
      : [{ reason: 'couplers' as const, lengthMm: shortestMm(change, couplerMm, endLever(car, car.couplerMm)) }]),
    ...(undersideMm === null
      ? []
      : [
          isHump
            ? { reason: 'belly' as const, lengthMm: shortestMm(change, undersideMm, bellyLever(car)) }
            : { reason: 'ends' as const, lengthMm: shortestMm(change, undersideMm, endLever(car, 0)) },
        ]),
  ]
}
