import { type Metal, PROOF_STRAIN, yieldStrain } from './metal.ts'

/**
 * Stress, MPa, at a strain reached by loading once from rest; odd in the strain.
 *
 * Ramberg–Osgood: the s of s/E + 0.002·(s/sy)^n = strain; linear: E·strain, beyond sy/E continuing with slope Et;
 * perfectly plastic: Et = 0.
 *
 * Range: any finite strain. Source: W. Ramberg and W. R. Osgood, NACA Technical Note 902 (1943), in its 0.2 % proof
 * form. Checked by inserting the stress in the law (tests/bending/stress-strain.test.ts).
 */
export function stressMpa(metal: Metal, strain: number): number {
  const size = Math.abs(strain)
  const { hardening } = metal
  if (size === 0) return 0
  if (hardening.model === 'ramberg-osgood')
    return Math.sign(strain) * metal.yieldMpa * Math.exp(logYieldsReached(size, yieldStrain(metal), hardening.n))
  const beyond = size - yieldStrain(metal)
  if (beyond <= 0) return metal.youngsModulusMpa * strain
  return Math.sign(strain) * (metal.yieldMpa + tangentModulusMpa(metal) * beyond)
}

/** Slope of a bilinear metal beyond its yield, MPa. */
export function tangentModulusMpa(metal: Metal): number {
  return metal.hardening.model === 'linear' ? metal.hardening.tangentModulusMpa : 0
}

/** Plastic part of the strain at a stress by the Ramberg–Osgood law: 0.002·(s/sy)^n. Range: stress ≥ 0. */
export function plasticStrain(metal: Metal, n: number, stress: number): number {
  return PROOF_STRAIN * (stress / metal.yieldMpa) ** n
}

/** A Newton step of this share of 1/n leaves an error of its square at most: below rounding. */
const SETTLED = 1e-8

/**
 * ln(s/sy) at a strain e > 0 by the Ramberg–Osgood law: the v of ln(ey·exp(v) + 0.002·exp(n·v)) = ln(e), ey = sy/E.
 *
 * In this form both terms are straight lines, and their sum is a convex curve close to the upper one, with slopes from 1
 * to n. So the line that is reached first is a start close above the root, and Newton's steps from there never overshoot.
 * Range and checks as for `stressMpa`.
 */
export function logYieldsReached(strain: number, ey: number, n: number): number {
  const log = Math.log(strain)
  let v = Math.min(log - Math.log(ey), (log - LOG_PROOF_STRAIN) / n)
  for (;;) {
    const elastic = ey * Math.exp(v)
    const plastic = PROOF_STRAIN * Math.exp(n * v)
    const sum = elastic + plastic
    const step = (Math.log(sum / strain) * sum) / (elastic + n * plastic)
    v -= step
    if (!(step * n > SETTLED)) return v
  }
}

const LOG_PROOF_STRAIN = Math.log(PROOF_STRAIN)
