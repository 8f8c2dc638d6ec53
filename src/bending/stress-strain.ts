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
  if (hardening.model === 'ramberg-osgood')
    return Math.sign(strain) * metal.yieldMpa * yieldsReached(size, yieldStrain(metal), hardening.n)
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

/** A Newton step this small leaves an error of about n/2 times its square: below rounding. */
const SETTLED = 1e-10

/**
 * Solves u·ey + 0.002·u^n = e for u = s/sy. The left side is convex and rises, so Newton's steps from above converge to
 * the root without overshooting. Starts above it: either term alone, and the tangent at u = 1.
 */
function yieldsReached(e: number, ey: number, n: number): number {
  const beyondProof = e - (ey + PROOF_STRAIN)
  let u = Math.min(e / ey, 1 + beyondProof / (ey + n * PROOF_STRAIN))
  if (beyondProof > 0) u = Math.min(u, (e / PROOF_STRAIN) ** (1 / n))
  for (;;) {
    const power = PROOF_STRAIN * u ** (n - 1)
    const step = (u * (ey + power) - e) / (ey + n * power)
    u -= step
    if (!(step > SETTLED * u)) return u
  }
}
