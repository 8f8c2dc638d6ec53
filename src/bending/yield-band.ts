import type { Material } from '../catalogue/types.ts'
import { type Metal, metalOfTemper, withYield } from './metal.ts'
import type { SectionProperties } from './section-properties.ts'
import { formingCurvature } from './springback.ts'

/** How far the yield varies within one temper: ±15 %, common practice, no source. */
const YIELD_SPREAD = 0.15

export interface RadiusBand {
  readonly lowMm: number
  readonly highMm: number
}

/**
 * Forming radii at the yield's upper and lower limit: the higher the yield, the more the rail springs back and the
 * tighter it must be bent. Checked in tests/bending/yield-band.test.ts.
 */
export function formingBand(
  section: SectionProperties,
  metal: Metal,
  wantedRadiusMm: number,
  yields: { readonly lowMpa: number; readonly highMpa: number } = spreadOf(metal.yieldMpa),
): RadiusBand {
  const at = (yieldMpa: number) => (wantedPerMm: number) =>
    formingCurvature(section, withYield(metal, yieldMpa), wantedPerMm)
  return bandOf(wantedRadiusMm, at(yields.lowMpa), at(yields.highMpa))
}

/** The same with `formingCurvature` at the lower and the upper limit of the yield. */
export function bandOf(
  wantedRadiusMm: number,
  low: (wantedPerMm: number) => number,
  high: (wantedPerMm: number) => number,
): RadiusBand {
  return { lowMm: 1 / high(1 / wantedRadiusMm), highMm: 1 / low(1 / wantedRadiusMm) }
}

export function spreadOf(yieldMpa: number): { lowMpa: number; highMpa: number } {
  return { lowMpa: yieldMpa * (1 - YIELD_SPREAD), highMpa: yieldMpa * (1 + YIELD_SPREAD) }
}

/** Forming radii of a rail of unknown temper: no single figure, only one for each temper. */
export interface TemperRange extends RadiusBand {
  readonly tempers: readonly { readonly temper: string; readonly formingRadiusMm: number; readonly band: RadiusBand }[]
}

/**
 * The range of forming radii over a material's tempers, each at its typical yield (its own ±15 % beside it).
 * Derived: half-hard brass forms at 655 mm for 2438 wanted, annealed at 1321 (tests/published/bending-table.test.ts).
 */
export function formingOverTempers(
  section: SectionProperties,
  material: Pick<Material, 'tempers'>,
  wantedRadiusMm: number,
): TemperRange {
  const tempers = material.tempers.map((temper) => {
    const metal = metalOfTemper(temper)
    return {
      temper: temper.id,
      formingRadiusMm: 1 / formingCurvature(section, metal, 1 / wantedRadiusMm),
      band: formingBand(section, metal, wantedRadiusMm),
    }
  })
  const radii = tempers.map(({ formingRadiusMm }) => formingRadiusMm)
  return { lowMm: Math.min(...radii), highMm: Math.max(...radii), tempers }
}
