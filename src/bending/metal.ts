import type { Temper } from '../catalogue/types.ts'
import type { Fault } from '../measure/fault.ts'

/**
 * How a metal behaves beyond its yield point:
 * - `ramberg-osgood`: strain = s/E + 0.002·(s/yield)^n; no sharp elastic limit, the yield is the 0.2 % proof stress;
 * - `linear`: linear with a smaller slope, the tangent modulus;
 * - `perfectly-plastic`: constant stress.
 */
type Hardening =
  | { readonly model: 'ramberg-osgood'; readonly n: number }
  | { readonly model: 'linear'; readonly tangentModulusMpa: number }
  | { readonly model: 'perfectly-plastic' }

/** What bending needs of a metal; the same in tension and compression. */
export interface Metal {
  readonly youngsModulusMpa: number
  readonly yieldMpa: number
  readonly hardening: Hardening
  /** Strain at fracture, as printed in tables; null when unknown. */
  readonly elongationPct: number | null
}

/** Plastic strain at the proof stress, by its definition. */
export const PROOF_STRAIN = 0.002

const MPA_PER_GPA = 1000

export function metalOfTemper(temper: Temper): Metal {
  return {
    youngsModulusMpa: temper.youngsModulusGpa * MPA_PER_GPA,
    yieldMpa: temper.yieldMpa,
    hardening: { model: 'ramberg-osgood', n: temper.rambergOsgoodN },
    elongationPct: temper.elongationPct,
  }
}

export function withYield(metal: Metal, yieldMpa: number): Metal {
  return { ...metal, yieldMpa }
}

/** Strain at which the metal would yield if it were elastic up to there: yield / E. */
export function yieldStrain(metal: Metal): number {
  return metal.yieldMpa / metal.youngsModulusMpa
}

/** Impossible figures of a metal. Paths are relative to the material. */
export function metalFaults(metal: Metal): Fault[] {
  const faults: Fault[] = []
  const refuse = (path: (string | number)[], detail: string, hint?: string) =>
    faults.push({ path, code: 'out-of-range', detail, hint })
  if (!isOver(metal.youngsModulusMpa, 0)) refuse(['youngsModulusGpa'], "Young's modulus must be over zero")
  if (!isOver(metal.yieldMpa, 0)) refuse(['yieldMpa'], 'the yield must be over zero')
  else if (metal.yieldMpa >= metal.youngsModulusMpa / 10)
    refuse(['yieldMpa'], "no metal has a yield of a tenth of Young's modulus or more", 'yield in MPa, E in GPa')
  if (metal.elongationPct !== null && !isOver(metal.elongationPct, 0))
    refuse(['elongationPct'], 'the elongation must be over zero', 'leave it out when it is unknown')
  const { hardening } = metal
  if (hardening.model === 'ramberg-osgood' && !(hardening.n > 1 && hardening.n <= 1000))
    refuse(['hardening', 'n'], 'the exponent must be over 1 and at most 1000', 'rail metals have 4 to 40')
  if (
    hardening.model === 'linear' &&
    !(hardening.tangentModulusMpa >= 0 && hardening.tangentModulusMpa < metal.youngsModulusMpa)
  )
    refuse(
      ['hardening', 'tangentModulusGpa'],
      "the tangent modulus must be between zero and Young's modulus",
      'in most metals it is a few percent of it',
    )
  return faults
}

function isOver(value: number, limit: number): boolean {
  return Number.isFinite(value) && value > limit
}
