import { type Metal, yieldStrain } from './metal.ts'
import { loadedTo, momentNmm, setCurvature, yieldCurvature } from './moment-curvature.ts'
import type { SectionProperties } from './section-properties.ts'

/** What it takes to give a rail a permanent radius. Radii are of the rail's own line. */
export interface Forming {
  readonly wantedRadiusMm: number
  /** Radius to bend to, under load. */
  readonly formingRadiusMm: number
  /** Wanted over forming radius: 1 where nothing springs back. */
  readonly overbendRatio: number
  readonly momentNmm: number
  /** Strain of the outermost fibre under load, as a fraction. */
  readonly maxStrain: number
  /** That strain as a share of the metal's elongation; null when that is unknown. From 1 on, expect cracks. */
  readonly shareOfElongation: number | null
}

/**
 * Curvature to bend to, per mm, so that elastic unloading leaves the wanted one; odd, 0 for 0.
 *
 * 1/Rf = 1/Rl − M(1/Rl)/(E·I), solved for 1/Rl
 *
 * Rf wanted, Rl forming radius, M the moment–curvature relation of `momentNmm`. The remaining curvature grows with the
 * bent curvature (every fibre's tangent modulus is below E), so there is exactly one answer. In logarithms it grows with
 * a slope from 1 to n (see `loadedTo`), nearly a straight line, in which Newton's steps take two or three evaluations;
 * a step out of the bracket known so far is replaced by its middle. Range: any finite wanted
 * curvature; a nearly straight one needs the yield curvature all the same, a straight one nothing. Checked in
 * tests/published/bending-table.test.ts, and there and back in tests/bending/springback.test.ts.
 */
export function formingCurvature(section: SectionProperties, metal: Metal, wantedPerMm: number): number {
  const wanted = Math.abs(wantedPerMm)
  if (wanted === 0) return 0
  const { plasticModulusMm3, lateralSecondMomentMm4 } = section
  // What a section springs back that yields all through without hardening.
  const back = (yieldStrain(metal) * plasticModulusMm3) / lateralSecondMomentMm4
  let [low, high] = [wanted, Number.POSITIVE_INFINITY]
  for (let k = wanted + back, step = 0; step < MOST_STEPS; step++) {
    const { setPerMm, setPower } = loadedTo(section, metal, k)
    const over = Math.log(setPerMm / wanted)
    if (over < 0) low = k
    else high = k
    const next = k * Math.exp(-over / setPower)
    if (Math.abs(next - k) <= SETTLED * k) return Math.sign(wantedPerMm) * next
    // NaN where nothing is set yet.
    if (next > low && next < high) k = next
    else k = high === Number.POSITIVE_INFINITY ? 2 * k : Math.sqrt(low * high)
  }
  throw new RangeError('no finite curvature leaves the wanted set')
}

/** A Newton step this small leaves an error of about its square: below rounding. */
const SETTLED = 1e-10
const MOST_STEPS = 1000

/**
 * The forming radius for a wanted one, with the load and the strain it takes.
 *
 * @param wantedRadiusMm radius of the rail's own line, > 0 and finite
 * @param formed `formingCurvature` of that rail, where it is remembered
 */
export function forming(
  section: SectionProperties,
  metal: Metal,
  wantedRadiusMm: number,
  formed = (wantedPerMm: number) => formingCurvature(section, metal, wantedPerMm),
): Forming {
  const curvature = formed(1 / wantedRadiusMm)
  const maxStrain = curvature * section.extremeFibreMm
  return {
    wantedRadiusMm,
    formingRadiusMm: 1 / curvature,
    overbendRatio: wantedRadiusMm * curvature,
    momentNmm: momentNmm(section, metal, curvature),
    maxStrain,
    shareOfElongation: metal.elongationPct === null ? null : (100 * maxStrain) / metal.elongationPct,
  }
}

/** Radius of a rail after it was bent to `formedRadiusMm` and released; null where it springs back straight. */
export function restingRadiusMm(section: SectionProperties, metal: Metal, formedRadiusMm: number): number | null {
  const left = setCurvature(section, metal, 1 / formedRadiusMm)
  return left > 0 && Number.isFinite(1 / left) ? 1 / left : null
}

export interface ElasticLimit {
  readonly radiusMm: number
  /** Share of the curvature that remains after bending to that radius: 0 for a metal with a sharp yield point. */
  readonly setShare: number
}

/**
 * Radius down to which a rail springs back straight, or, for a Ramberg–Osgood metal, which never does so completely,
 * the radius at which its outermost fibre reaches the strain of the 0.2 % proof stress, with the share of set left
 * there.
 *
 * r = c·E/sy
 *
 * c extreme fibre, E Young's modulus, sy yield. Closed form; the shares left are derived (2 % in half-hard brass, 9 %
 * in annealed 304, 19 % in annealed brass; tests/published/bending-table.test.ts).
 */
export function elasticLimit(section: SectionProperties, metal: Metal): ElasticLimit {
  const curvature = yieldCurvature(section, metal)
  return { radiusMm: 1 / curvature, setShare: setCurvature(section, metal, curvature) / curvature }
}
