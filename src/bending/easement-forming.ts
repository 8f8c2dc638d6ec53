import type { Metal } from './metal.ts'
import type { SectionProperties } from './section-properties.ts'
import { formingCurvature } from './springback.ts'

export interface FormingStation {
  readonly atMm: number
  /** Radii of the rail's own line; null where it is straight and is left unbent. */
  readonly wantedRadiusMm: number | null
  readonly formingRadiusMm: number | null
}

/**
 * Forming radii along a rail whose curvature changes, one a station; a curve to the other side counts the same.
 * Each station is taken as if the rail were bent evenly there (see `formingCurvature`).
 * Checked in tests/bending/easement-forming.test.ts.
 *
 * @param stations curvature of the rail's own line, per mm, either sign
 */
export function formingAlong(
  section: SectionProperties,
  metal: Metal,
  stations: readonly { readonly atMm: number; readonly curvaturePerMm: number }[],
): FormingStation[] {
  return stations.map(({ atMm, curvaturePerMm }) => {
    const wanted = Math.abs(curvaturePerMm)
    return {
      atMm,
      wantedRadiusMm: radiusOf(wanted),
      formingRadiusMm: radiusOf(formingCurvature(section, metal, wanted)),
    }
  })
}

function radiusOf(curvature: number): number | null {
  return curvature === 0 ? null : 1 / curvature
}
