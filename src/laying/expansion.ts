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

/** The longest rail that grows by no more than `growthMm` over a range of temperatures; null when any does. */
export function longestFor(expansionPerK: number, growthMm: number, rangeK: number): number | null {
  const perMm = expansionPerK * rangeK
  return perMm > 0 ? growthMm / perMm : null
}

/**
 * By how much an arc that floats moves outward as a whole when it warms, keeping its angle: α·ΔT·R.
 *
 * @param radiusMm R, of the centre line
 */
export function breathingMm(expansionPerK: number, radiusMm: number, riseK: number): number {
  return expansionPerK * riseK * radiusMm
}

/**
 * Stress in rail that is kept from growing: E·α·ΔT, compression positive. Elastic, so true below the yield.
 *
 * @param youngsModulusMpa E, in MPa = N/mm²
 */
export function heldStressMpa(youngsModulusMpa: number, expansionPerK: number, riseK: number): number {
  return youngsModulusMpa * expansionPerK * riseK
}

/**
 * The length of straight rail that, free sideways between two places that hold it, buckles under the compression of its
 * own held growth: Euler's column with pinned ends, F = π²EI/l² against F = E·A·α·ΔT gives
 *
 * l = π·√(I / (A·α·ΔT))
 *
 * whatever the metal's modulus. Null when it is not compressed.
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
