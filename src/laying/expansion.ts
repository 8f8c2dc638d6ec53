/**
 * How much a length of rail grows: α·L·ΔT.
 *
 * @param expansionPerK α
 * @param lengthMm L
 * @param riseK ΔT, negative when it cools
 * Checked in tests/published/expansion.test.ts.
 */
export function growthMm(expansionPerK: number, lengthMm: number, riseK: number): number {
  return expansionPerK * lengthMm * riseK
}

/** The longest rail that grows by at most `growthMm` over a range of temperatures; null when there is no limit. */
export function longestFor(expansionPerK: number, growthMm: number, rangeK: number): number | null {
  const perMm = expansionPerK * rangeK
  return perMm > 0 ? growthMm / perMm : null
}

/**
 * How far a floating arc moves outward as a whole when it warms, keeping its angle: α·ΔT·R.
 *
 * @param radiusMm R, of the centre line
 */
export function breathingMm(expansionPerK: number, radiusMm: number, riseK: number): number {
  return expansionPerK * riseK * radiusMm
}

/**
 * Stress in rail that cannot expand: E·α·ΔT, compression positive. Elastic, so valid below the yield.
 *
 * @param youngsModulusMpa E, in MPa = N/mm²
 */
export function heldStressMpa(youngsModulusMpa: number, expansionPerK: number, riseK: number): number {
  return youngsModulusMpa * expansionPerK * riseK
}

/**
 * The length of straight rail, free sideways between two supports, that buckles under the compression of its
 * own prevented expansion: Euler's column with pinned ends, F = π²EI/l² and F = E·A·α·ΔT give
 *
 * l = π·√(I / (A·α·ΔT))
 *
 * independent of the metal's modulus. Null when it is not compressed.
 *
 * @param lateralSecondMomentMm4 I, about the rail's vertical axis
 * @param areaMm2 A
 */
export function bucklingLengthMm(
  { lateralSecondMomentMm4, areaMm2 }: { readonly lateralSecondMomentMm4: number; readonly areaMm2: number },
  expansionPerK: number,
  riseK: number,
): number | null {
  const strain = expansionPerK * riseK
  return strain > 0 ? Math.PI * Math.sqrt(lateralSecondMomentMm4 / (areaMm2 * strain)) : null
}
