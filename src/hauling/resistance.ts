/** Standard gravity, m/s². */
export const GRAVITY_M_S2 = 9.80665

/** Friction of a dry wheel that slides on a dry rail, from memory. */
const SLIDING_FRICTION = 0.35

/** A measurement of cars in a curve. */
export interface MeasuredCurve {
  /** Pull on the curve less that on straight track, percent of the weight. */
  readonly extraPct: number
  readonly radiusMm: number
}

/**
 * Curve resistance as a length c: on a curve of radius R cars ask for c/R of their weight beside rolling resistance, as if
 * the grade were steeper by 100·c/R percent.
 *
 * c = μ·(0.72·G + 0.47·a)
 *
 * μ friction of wheels that slide on the rails, G gauge and a rigid wheelbase, both mm. It is Protopapadakis' formula
 * (from memory; his μ is 0.16 to 0.22), in which everything is a ratio of lengths, so that it knows no scale. With dry
 * rails it comes to 0.95 of AREA's 0.8 lb a short ton and degree at standard gauge, and lies among the rules for three
 * gauges in tests/published/curve-compensation-by-gauge.test.ts. Rules in degrees themselves belong to their gauge: they
 * come to c = 0.70 m. Webb warns that they overstate at very sharp curves; at 1.2 m radius it would be half the weight.
 * Range: R well above a. Checked in tests/published/area-curve-resistance.test.ts.
 */
export function curveResistanceMm(gaugeMm: number, wheelbaseMm: number): number {
  return SLIDING_FRICTION * (0.72 * gaugeMm + 0.47 * wheelbaseMm)
}

/** The same length from what was measured: as much more or less as the radius is smaller or larger. */
export function measuredCurveResistanceMm({ extraPct, radiusMm }: MeasuredCurve): number {
  return (extraPct / 100) * radiusMm
}
