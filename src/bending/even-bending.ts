import type { Metal } from './metal.ts'
import { setCurvature } from './moment-curvature.ts'
import type { SectionProperties } from './section-properties.ts'

/** Moment (N·mm) that a rail of a radius leaves to the ties after it was bent by hand. */
export type LeftToTies = (radiusMm: number) => number

/**
 * What hands leave to the ties. They bend evenly up to an overbend ratio q, so of a curvature k they set κset(q·k); the
 * rail is sprung in for the rest:
 *
 * m(k) = E·I·(k − κset(q·k)), 0 where hands set all of it
 *
 * A curve is reached from the straight through all gentler curvatures, in an easement or where a bend runs out, and the
 * ties must hold the rail there too. So for a radius R it is the greatest m(k) of 0 < k ≤ 1/R, and never rises with R.
 * m is concave (the moment–curvature relation is), which leaves one peak to look for.
 *
 * E Young's modulus, I second moment, κset as in `setCurvature`. Range: R > 0; q below 1 counts as 1, where m is the
 * moment of springing in. Derived; tests/bending/even-bending.test.ts.
 *
 * @param mostEvenRatio q
 */
export function leftToTies(section: SectionProperties, metal: Metal, mostEvenRatio: number): LeftToTies {
  const stiffness = metal.youngsModulusMpa * section.lateralSecondMomentMm4
  const ratio = Math.max(1, mostEvenRatio)
  const left = (curvature: number) => stiffness * (curvature - setCurvature(section, metal, ratio * curvature))
  let peak: number | null = null
  return (radiusMm) => {
    const curvature = 1 / radiusMm
    // The peak of a rail is the same for all radii.
    if (peak !== null && curvature >= peak) return Math.max(0, left(peak))
    if (left(curvature) > left(curvature * (1 - PROBE))) return Math.max(0, left(curvature))
    peak = peakBelow(left, curvature)
    return Math.max(0, left(peak))
  }
}

/** A relative step that shows whether a function rises, well above what its digits lose. */
const PROBE = 1e-5
const GOLDEN = (Math.sqrt(5) - 1) / 2
/** Enough for a place to 1e-8 of the bracket, and so a value to its last digits. */
const STEPS = 40

/** Place of the greatest value of a concave function that is zero at 0 and falls at `most`: golden section search. */
function peakBelow(f: (x: number) => number, most: number): number {
  let [low, high] = [0, most]
  for (let step = 0; step < STEPS; step++) {
    const width = GOLDEN * (high - low)
    if (f(high - width) < f(low + width)) low = high - width
    else high = low + width
  }
  return (low + high) / 2
}
