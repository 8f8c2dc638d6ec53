/** Where the rails of two curves to the same side cross that leave the same track at the points. */
export interface CurvedCrossing {
  readonly frogRad: number
  /** From the points to the theoretical point of the frog, along the tangent at the points. */
  readonly leadMm: number
  /** From the centre line's tangent at the points, towards the inside of the curves. */
  readonly offsetMm: number
}

/**
 * The frog of a turnout both of whose legs curve to one side: the inner rail of the wider curve meets the outer rail of
 * the tighter one.
 *
 * cos F = (a² + b² − d²)/(2ab), a = Ra − g/2, b = Rb + g/2, d = Ra − Rb
 * lead = a·sin A, A the angle at the centre of the wider curve: cos A = (a² + d² − b²)/(2ad)
 *
 * Ra radius of the wider leg, Rb of the tighter one, g gauge, F angle of the frog. Range: Ra > Rb > g/2.
 * Closed form (cosine rule); checked in tests/track/turnout/lead.test.ts.
 */
export function curvedCrossing(gaugeMm: number, outerRadiusMm: number, radiusMm: number): CurvedCrossing {
  const a = outerRadiusMm - gaugeMm / 2
  const b = radiusMm + gaugeMm / 2
  const d = outerRadiusMm - radiusMm
  const frogRad = angleBetween(a, b, d)
  const atCentreRad = angleBetween(a, d, b)
  return { frogRad, leadMm: a * Math.sin(atCentreRad), offsetMm: outerRadiusMm - a * Math.cos(atCentreRad) }
}

/** Between two sides of a triangle, by the third: tan²(x/2) = (s − a)(s − b)/(s(s − c)), which is exact when it is small. */
function angleBetween(a: number, b: number, opposite: number): number {
  const s = (a + b + opposite) / 2
  return 2 * Math.atan2(Math.sqrt((s - a) * (s - b)), Math.sqrt(s * (s - opposite)))
}
