/** International Annealed Copper Standard at 20 °C, Ω·m. */
export const COPPER_OHM_M = 1.7241e-8

const MM_PER_MIL = 0.0254

/**
 * Cross-section of a solid wire of the American wire gauge: d = 5 mil · 92^((36 − n)/39), A = π·d²/4.
 * Checked against the wire table of NBS Handbook 100 in tests/published/nbs-handbook-100-wire.test.ts.
 *
 * @param awg n, 0 to 40
 */
export function awgAreaMm2(awg: number): number {
  const diameterMm = 5 * MM_PER_MIL * 92 ** ((36 - awg) / 39)
  return (Math.PI * diameterMm * diameterMm) / 4
}

/** R = ρ/A, ohms per metre of conductor. */
export function ohmsPerMetre(resistivityOhmM: number, areaMm2: number): number {
  return (resistivityOhmM / areaMm2) * 1e6
}
