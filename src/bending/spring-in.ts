import type { Metal } from './metal.ts'
import { setCurvature } from './moment-curvature.ts'
import type { SectionProperties } from './section-properties.ts'
import { elasticLimit } from './springback.ts'

/** What it takes to hold a rail in a curve without bending it first. */
export interface SpringIn {
  /** Moment that must be held at each end; between the ends an evenly sprung rail has no side force. */
  readonly endCoupleNmm: number
  /** The pair of forces on the last two ties that makes this couple. */
  readonly forcePairN: number
  readonly tieSpacingMm: number
  /** Share of the curvature that would remain if the rail were removed again. */
  readonly setShare: number
  /** How much of each end of a stick to set to the radius so that the joints do not kink. */
  readonly setEnds: { readonly fromMm: number; readonly toMm: number }
}

/** Common practice, no source. */
const SET_ENDS = { fromMm: 150, toMm: 300 } as const

/**
 * Springing rail into a radius: end couple E·I/R, force pair E·I/(R·tie spacing); constant moment, so no side force
 * along the arc but one at each end and at every joint.
 *
 * Range: radius at or above the elastic limit (see `elasticLimit`); null below, where the rail takes a set.
 * Closed form; the 8.43 mm section's values are derived (tests/published/bending-table.test.ts).
 *
 * @param radiusMm of the rail's own line, > 0
 */
export function springIn(
  section: SectionProperties,
  metal: Metal,
  radiusMm: number,
  tieSpacingMm: number,
): SpringIn | null {
  if (radiusMm < elasticLimit(section, metal).radiusMm) return null
  const endCoupleNmm = (metal.youngsModulusMpa * section.lateralSecondMomentMm4) / radiusMm
  return {
    endCoupleNmm,
    forcePairN: endCoupleNmm / tieSpacingMm,
    tieSpacingMm,
    setShare: setCurvature(section, metal, 1 / radiusMm) * radiusMm,
    setEnds: SET_ENDS,
  }
}
