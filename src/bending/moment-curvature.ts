import { type Metal, PROOF_STRAIN, yieldStrain } from './metal.ts'
import type { SectionProperties } from './section-properties.ts'
import { logYieldsReached, tangentModulusMpa } from './stress-strain.ts'

/**
 * Bending moment of the loaded section, N·mm, at a curvature (per mm) reached by loading once from straight; odd in the
 * curvature. Plane sections stay plane: the strain at y from the vertical axis is κ·y, so every rectangle of the stack
 * yields at its own curvature and M = Σ 2h ∫₀ᵇ s(κy)·y dy over the half widths b.
 *
 * Linear and perfectly plastic, with yy = sy/(E·κ): M = Et·κ·I + (1 − Et/E)·Σ sy·h·b²·(1 − (yy/b)²/3), a rectangle with
 * b ≤ yy giving E·κ·2hb³/3 instead. Beer & Johnston, *Mechanics of Materials*, ch. 4.
 *
 * Ramberg–Osgood, s the stress at the rectangle's edge, p the plastic part of the strain there (0.002·(s/sy)^n over
 * κ·b): M = Σ 2hb²·s·[(1−p)²/3 + (1−p)p·(n+1)/(n+2) + p²·n/(2n+1)]. Derived by using the stress as the variable of
 * integration; the same as (2b/k²)[s³/(3E²) + B(n+1)/E·s^(n+2)/(n+2) + nB²·s^(2n+1)/(2n+1)] with B = 0.002/sy^n.
 *
 * Range: any curvature. Checked in tests/published/beer-johnston-*.test.ts, tests/published/bending-table.test.ts and
 * against quadrature in tests/bending/moment-curvature.test.ts.
 */
export function momentNmm(section: SectionProperties, metal: Metal, curvaturePerMm: number): number {
  if (curvaturePerMm === 0) return 0
  return Math.sign(curvaturePerMm) * loadedTo(section, metal, Math.abs(curvaturePerMm)).momentNmm
}

/**
 * Curvature (per mm) that remains when the moment is removed and the section unloads elastically; odd.
 *
 * κset = κ − M/(E·I) = (1/I)·Σ 2h ∫₀ᵇ εp·y dy, εp the plastic strain
 *
 * It is computed from the second form, which keeps its precision where almost everything springs back:
 * linear and perfectly plastic (1 − Et/E)·κ/(3I)·Σ h·(b − yy)²·(2b + yy), over the rectangles with b > yy;
 * Ramberg–Osgood (1/I)·Σ 2hb²·εp·[(1−p)²/(n+2) + (1−p)p·(n+1)/(2n+1) + p²/3], εp at the rectangle's edge.
 *
 * Range: any curvature, as long as unloading does not yield the section backwards (see `residualStress`). For one
 * perfectly plastic rectangle it is Gardiner's cubic (tests/published/gardiner-springback.test.ts); that it equals
 * κ − M/(E·I) is checked in tests/bending/moment-curvature.test.ts.
 */
export function setCurvature(section: SectionProperties, metal: Metal, curvaturePerMm: number): number {
  if (curvaturePerMm === 0) return 0
  return Math.sign(curvaturePerMm) * loadedTo(section, metal, Math.abs(curvaturePerMm)).setPerMm
}

/** A section under load at a curvature reached by loading once from straight. */
export interface Loaded {
  readonly momentNmm: number
  /** Curvature that remains when the moment is removed. */
  readonly setPerMm: number
  /** By what power of the curvature the remaining one grows there; NaN where nothing remains. */
  readonly setPower: number
}

/**
 * Moment and remaining curvature at a curvature > 0, as in `momentNmm` and `setCurvature`, and
 *
 * d ln κset/d ln κ = Σ 2hb²·εp/(I·κset) − 2, εp at each rectangle's edge: the derivative of (1/κ²)·∫₀^κb εp·ε dε.
 *
 * It falls from n where almost everything springs back to 1 where almost nothing does. Range: κ > 0. Checked against
 * differences in tests/bending/moment-curvature.test.ts.
 */
export function loadedTo(section: SectionProperties, metal: Metal, curvaturePerMm: number): Loaded {
  const { hardening } = metal
  return hardening.model === 'ramberg-osgood'
    ? loadedPastRoundKnee(section, metal, hardening.n, curvaturePerMm)
    : loadedPastSharpYield(section, metal, curvaturePerMm)
}

/** Curvature per mm at which the outermost fibre's strain is yield/E. */
export function yieldCurvature(section: SectionProperties, metal: Metal): number {
  return yieldStrain(metal) / section.extremeFibreMm
}

function loadedPastRoundKnee(
  { rectangles, lateralSecondMomentMm4: I }: SectionProperties,
  metal: Metal,
  n: number,
  k: number,
): Loaded {
  const ey = yieldStrain(metal)
  let [moment, plastic, atEdges] = [0, 0, 0]
  for (const { widthMm, heightMm: h } of rectangles) {
    const b = widthMm / 2
    const v = logYieldsReached(k * b, ey, n)
    const s = metal.yieldMpa * Math.exp(v)
    const ep = PROOF_STRAIN * Math.exp(n * v)
    const p = ep / (k * b)
    const q = 1 - p
    moment += 2 * h * b * b * s * ((q * q) / 3 + (q * p * (n + 1)) / (n + 2) + (p * p * n) / (2 * n + 1))
    plastic += 2 * h * b * b * ep * ((q * q) / (n + 2) + (q * p * (n + 1)) / (2 * n + 1) + (p * p) / 3)
    atEdges += 2 * h * b * b * ep
  }
  return { momentNmm: moment, setPerMm: plastic / I, setPower: atEdges / plastic - 2 }
}

function loadedPastSharpYield(
  { rectangles, lateralSecondMomentMm4: I }: SectionProperties,
  metal: Metal,
  k: number,
): Loaded {
  const { youngsModulusMpa: E, yieldMpa } = metal
  const slope = tangentModulusMpa(metal) / E
  const yy = yieldStrain(metal) / k
  let [moment, plastic, atEdges] = [0, 0, 0]
  for (const { widthMm, heightMm: h } of rectangles) {
    const b = widthMm / 2
    const elastic = (E * k * 2 * h * b ** 3) / 3
    if (b <= yy) {
      moment += elastic
      continue
    }
    moment += slope * elastic + (1 - slope) * yieldMpa * h * b * b * (1 - (yy / b) ** 2 / 3)
    plastic += ((1 - slope) * k * h * (b - yy) ** 2 * (2 * b + yy)) / 3
    atEdges += 2 * h * b * b * (1 - slope) * k * (b - yy)
  }
  return { momentNmm: moment, setPerMm: plastic / I, setPower: atEdges / plastic - 2 }
}
