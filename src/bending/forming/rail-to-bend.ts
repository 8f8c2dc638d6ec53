import type { Material } from '../../catalogue/types.ts'
import type { Calibration } from '../calibration/calibration.ts'
import { type Metal, withYield } from '../metal.ts'
import type { SectionProperties } from '../section-properties.ts'
import { spreadOf } from '../yield-band.ts'

/** What bending needs of a rail, with what is known of its metal. */
export interface RailToBend {
  readonly section: SectionProperties
  readonly headWidthMm: number
  /** What the figures are based on: a temper's id, 'own', 'calibrated', or null where only the material is known. */
  readonly basis: string | null
  /** Null where there is no single yield. */
  readonly metal: Metal | null
  /** The range of the true yield; null with `metal`. */
  readonly yields: { readonly lowMpa: number; readonly highMpa: number } | null
  /** Its possible tempers, where the temper is not known. */
  readonly tempers: Material['tempers']
  /** This bender's own line for this rail, from test passes. */
  readonly line: Calibration['line']
}

/**
 * What is known of a rail: test bends take precedence over the temper, the temper over the material.
 *
 * @param nominal the metal as named (of the material's usual temper where none is); its yield counts where `basis` is not null
 */
export function railToBend(
  rail: Pick<RailToBend, 'section' | 'headWidthMm'>,
  nominal: Metal,
  basis: string | null,
  tempers: Material['tempers'],
  calibration: Calibration | null,
): RailToBend {
  const line = calibration?.line ?? null
  const yieldMpa = calibration?.effectiveYieldMpa ?? null
  if (calibration && yieldMpa !== null) {
    const spread = spreadOf(yieldMpa)
    const yields = {
      lowMpa: calibration.lowMpa ?? spread.lowMpa,
      highMpa: calibration.highMpa ?? spread.highMpa,
    }
    return { ...rail, basis: 'calibrated', metal: withYield(nominal, yieldMpa), yields, tempers: [], line }
  }
  if (basis === null) return { ...rail, basis, metal: null, yields: null, tempers, line }
  return { ...rail, basis, metal: nominal, yields: spreadOf(nominal.yieldMpa), tempers: [], line }
}
