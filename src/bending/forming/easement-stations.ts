import { type RailLine, railDistanceAt } from '../../track/rails.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { BendFormer } from './form-bend.ts'
import type { EasementForming } from './types.ts'

/** An easement is marked at its ends and at every eighth between. */
const PARTS = 8

/**
 * Forming radii along one rail of an easement, by distance along that rail. The rail's own curvature is κ/(1 − o·κ), κ
 * that of the centre line and o the rail's offset, left positive (a parallel curve; |o·κ| < 1). Where the metal has no
 * single yield only the wanted radii are given.
 */
export function formEasement(
  track: string,
  easement: PlacedElement,
  side: 'left' | 'right',
  line: RailLine,
  former: BendFormer,
): EasementForming {
  const { index: element, fromMm, toMm, lengthMm, startCurvature, endCurvature } = easement
  const beginsMm = line.elements[element]!.fromMm
  const stations = Array.from({ length: PARTS + 1 }, (_, part) => {
    const stationMm = part === PARTS ? toMm : fromMm + (lengthMm * part) / PARTS
    // In this form a curve's easements in and out have exactly the same curvatures, which are then calculated once.
    const ofCentre = (startCurvature * (PARTS - part) + endCurvature * part) / PARTS
    const wanted = Math.abs(ofCentre / (1 - line.offsetLeftMm * ofCentre))
    return {
      atMm: railDistanceAt(line, stationMm) - beginsMm,
      wantedRadiusMm: radiusOf(wanted),
      formingRadiusMm: radiusOf(former.formingCurvature(wanted)),
    }
  })
  return { track, element, side, stations }
}

function radiusOf(curvature: number | null): number | null {
  return curvature === null || curvature === 0 ? null : 1 / curvature
}
