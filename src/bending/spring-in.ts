import type { Metal } from './metal.ts'
import { loadedTo } from './moment-curvature.ts'
import type { SectionProperties } from './section-properties.ts'

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
  /** At a joint: the force of each rail end on the last tie beside it. */
  readonly jointForceN: number
  /** The same where the ends are set, at least over `setEnds.fromMm`. */
  readonly jointForceSetEndsN: number
  /** Angle between the two rail ends at a joint whose ends are not set. */
  readonly jointKinkRad: number
}

/** Common practice, no source. */
const SET_ENDS = { fromMm: 150, toMm: 300 } as const

/**
 * Springing rail into a radius R and leaving it to the ties to hold it there.
 *
 * couple at the ends M = M(1/R), which is E·I/R less the share that sets; constant in between, so no side force along
 * the arc. A joiner passes on no moment to speak of, so each joint is such an end.
 * force pair on the last two ties F = M/s
 * at a joint: F as well, on the last tie of both rail ends and to the same side, outward
 * with set ends: the end of each stick bent to R, running out over L, so that M falls to zero over L: F = M/max(L, s)
 * kink at a joint between ties, ends not set: (1 + 1/√3)·s/R
 *
 * s tie spacing, L = 150 mm. The pair is that of ties which yield alike; ties that do not move at all would take
 * 3 − √3 = 1.27 times as much on the last (three-moment equation), and the kink is given for those.
 *
 * What differs between metals is E: a joint of stainless rail (193 GPa) pushes nearly twice as hard as one of brass
 * (97 to 110 GPa), while the kink is the same.
 *
 * Range: any radius; below the elastic limit M(1/R) is less than E·I/R. Closed form; the 8.43 mm section's values are
 * derived (tests/published/bending-table.test.ts), the kink in tests/bending/spring-in.test.ts.
 *
 * @param radiusMm of the rail's own line, > 0
 */
export function springIn(section: SectionProperties, metal: Metal, radiusMm: number, tieSpacingMm: number): SpringIn {
  const { momentNmm: endCoupleNmm, setPerMm } = loadedTo(section, metal, 1 / radiusMm)
  const forcePairN = endCoupleNmm / tieSpacingMm
  return {
    endCoupleNmm,
    forcePairN,
    tieSpacingMm,
    setShare: setPerMm * radiusMm,
    setEnds: SET_ENDS,
    jointForceN: forcePairN,
    jointForceSetEndsN: setEndsForceN(endCoupleNmm, tieSpacingMm),
    jointKinkRad: ((1 + 1 / Math.sqrt(3)) * tieSpacingMm) / radiusMm,
  }
}

/** Force on the ties at a joint whose ends are set, N: see `springIn`. */
export function setEndsForceN(momentNmm: number, tieSpacingMm: number): number {
  return momentNmm / Math.max(SET_ENDS.fromMm, tieSpacingMm)
}
