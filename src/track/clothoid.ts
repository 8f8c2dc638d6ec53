import type { Pose } from './types.ts'

/**
 * Heading change along a piece of clothoid, radians, left positive.
 *
 * Δθ(s) = s·(k0 + κ(s))/2, κ(s) = k0 + (k1 − k0)·s/L
 *
 * s `atMm` from the start, k0 and k1 the curvatures at the two ends (per mm, left positive), L `lengthMm`.
 * Range: any curvatures; 0 ≤ s ≤ L. Closed form; checked in tests/track/clothoid.test.ts.
 */
export function turnedAlong(startCurvature: number, endCurvature: number, lengthMm: number, atMm: number): number {
  if (startCurvature === endCurvature || atMm === 0) return startCurvature * atMm
  return atMm * (startCurvature + ((endCurvature - startCurvature) * (atMm / lengthMm)) / 2)
}

/**
 * The pose at `atMm` from `start` along a piece of clothoid: curvature runs linearly from `startCurvature` to
 * `endCurvature` (per mm, left positive) over `lengthMm`. Equal curvatures make an arc, two zeros a tangent.
 *
 * x + iy = x0 + iy0 + ∫₀ˢ exp(i·θ(u)) du, θ(u) = θ0 + k0·u + (k1 − k0)·u²/(2L)
 *
 * Range: 0 ≤ atMm ≤ lengthMm, any number of turns, any scale. Arcs and tangents are closed forms; a clothoid is within
 * 1e-12 of its length, at a cost that does not grow with the number of turns.
 * Checked in tests/published/ifc-rail-clothoid.test.ts,
 * tests/published/abramowitz-stegun-fresnel.test.ts and an independent quadrature in tests/track/clothoid.test.ts.
 */
export function poseAlong(
  start: Pose,
  startCurvature: number,
  endCurvature: number,
  lengthMm: number,
  atMm: number,
): Pose {
  if (startCurvature === endCurvature || atMm === 0) return poseAlongArc(start, startCurvature, atMm)
  const rate = (endCurvature - startCurvature) / lengthMm
  const moved = displacement(startCurvature, rate, atMm)
  const cos = Math.cos(start.headingRad)
  const sin = Math.sin(start.headingRad)
  return {
    xMm: start.xMm + moved.x * cos - moved.y * sin,
    yMm: start.yMm + moved.x * sin + moved.y * cos,
    headingRad: start.headingRad + turnedAlong(startCurvature, endCurvature, lengthMm, atMm),
  }
}

/**
 * Along an arc or tangent: the chord is s·sin(Δ/2)/(Δ/2) long and points Δ/2 away from the start heading, Δ = κ·s.
 * In this form nothing cancels, however small Δ is.
 */
function poseAlongArc(start: Pose, curvature: number, atMm: number): Pose {
  const half = (curvature * atMm) / 2
  const chord = half === 0 ? atMm : atMm * (Math.sin(half) / half)
  const direction = start.headingRad + half
  return {
    xMm: start.xMm + chord * Math.cos(direction),
    yMm: start.yMm + chord * Math.sin(direction),
    headingRad: start.headingRad + curvature * atMm,
  }
}

interface Vector {
  x: number
  y: number
}

/** Up to this turning (largest curvature × length, rad) plain quadrature is fastest. */
const PLAIN_QUADRATURE_RAD = 32

/**
 * The series of `addFar` is accurate to rounding where κ²/|rate| is at least this: its smallest term is about e^(−40).
 */
const FAR = 80

/** ∫₀ˢ exp(i(k0·u + rate·u²/2)) du, `rate` ≠ 0: displacement along the clothoid in the frame of its start heading. */
function displacement(k0: number, rate: number, length: number): Vector {
  const sum = { x: 0, y: 0 }
  const largest = Math.max(Math.abs(k0), Math.abs(k0 + rate * length))
  if (largest * Math.abs(length) <= PLAIN_QUADRATURE_RAD) {
    addNear(sum, k0, rate, 0, length)
    return sum
  }
  // Many turns. Only the stretch around zero curvature needs quadrature, and its turning is bounded.
  const straightAt = -k0 / rate
  const reach = Math.sqrt(FAR / Math.abs(rate))
  const nearFrom = Math.min(Math.max(straightAt - reach, 0), length)
  const nearTo = Math.min(Math.max(straightAt + reach, 0), length)
  if (nearFrom > 0) {
    addFar(sum, k0, rate, nearFrom, 1)
    addFar(sum, k0, rate, 0, -1)
  }
  if (nearTo > nearFrom) addNear(sum, k0, rate, nearFrom, nearTo)
  if (nearTo < length) {
    addFar(sum, k0, rate, length, 1)
    addFar(sum, k0, rate, nearTo, -1)
  }
  return sum
}

/** Ten-point Gauss–Legendre rule on [−1, 1]: positive nodes and their weights (Abramowitz & Stegun, table 25.4). */
const NODES = [0.14887433898163122, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717]
const WEIGHTS = [0.29552422471475287, 0.26926671930999635, 0.21908636251598204, 0.1494513491505806, 0.06667134430868814]

/** If no panel turns more than this, the rule's own error stays below rounding. */
const PANEL_RAD = 4

/** Adds the integral from `from` to `to` by quadrature in panels. */
function addNear(sum: Vector, k0: number, rate: number, from: number, to: number): void {
  const largest = Math.max(Math.abs(k0 + rate * from), Math.abs(k0 + rate * to))
  const panels = Math.max(1, Math.ceil((largest * Math.abs(to - from)) / PANEL_RAD))
  const half = (to - from) / (2 * panels)
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half
    const curvature = k0 + rate * middle
    let re = 0
    let im = 0
    // Nodes ±v share exp(i·rate·v²/2); their linear phases ±κv add up to 2·cos κv.
    for (let node = 0; node < 5; node++) {
      const v = half * NODES[node]!
      const weight = 2 * WEIGHTS[node]! * Math.cos(curvature * v)
      const bend = (rate * v * v) / 2
      re += weight * Math.cos(bend)
      im += weight * Math.sin(bend)
    }
    const phase = middle * (k0 + (rate * middle) / 2)
    const cos = Math.cos(phase)
    const sin = Math.sin(phase)
    sum.x += half * (re * cos - im * sin)
    sum.y += half * (re * sin + im * cos)
  }
}

/**
 * Adds ± the antiderivative of exp(iφ(u)) at `at`, far from zero curvature (|q| ≤ 1/FAR):
 *
 * G = exp(iφ)/(iκ) · Σ (2n − 1)!!·(−i·q)ⁿ, κ = φ′ = k0 + rate·u, q = rate/κ²
 *
 * the asymptotic series of repeated integration by parts (Abramowitz & Stegun 7.3.27–28), cut off at rounding.
 */
function addFar(sum: Vector, k0: number, rate: number, at: number, sign: 1 | -1): void {
  const curvature = k0 + rate * at
  const q = rate / (curvature * curvature)
  let re = 0
  let im = 0
  let term = 1
  for (let n = 0; Math.abs(term) > 1e-17 && n < FAR / 2; n += 2) {
    const next = term * (2 * n + 1) * q
    re += term
    im -= next
    term = -next * (2 * n + 3) * q
  }
  const phase = at * (k0 + (rate * at) / 2)
  const cos = Math.cos(phase)
  const sin = Math.sin(phase)
  sum.x += (sign * (im * cos + re * sin)) / curvature
  sum.y += (sign * (im * sin - re * cos)) / curvature
}
