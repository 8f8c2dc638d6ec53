import { curvatureOn } from '../../track/place.ts'
import { type RailLine, railDistanceAt } from '../../track/rails.ts'
import type { PlacedElement } from '../../track/types.ts'
import { formingCurvature } from '../springback.ts'
import type { RailToBend } from './rail-to-bend.ts'
import type { EasementForming } from './types.ts'

/** An easement is marked at its ends and at every eighth between. */
const PARTS = 8

/**
 * Forming radii along one rail of an easement, by distance along that rail. The rail's own curvature is κ/(1 − o·κ), κ
 * that of the centre line and o the rail's offset, left positive (a parallel curve; |o·κ| < 1). Where the metal has no
 * single yield only the wanted radii are told.
 */
export function formEasement(
  track: string,
  easement: PlacedElement,
  side: 'left' | 'right',
  line: RailLine,
  { section, metal }: RailToBend,
): EasementForming {
  const beginsMm = line.elements[easement.index]!.fromMm
  const stations = Array.from({ length: PARTS + 1 }, (_, part) => {
    const stationMm = part === PARTS ? easement.toMm : easement.fromMm + (easement.lengthMm * part) / PARTS
    const ofCentre = curvatureOn(easement, stationMm)
    const curvature = Math.abs(ofCentre / (1 - line.offsetLeftMm * ofCentre))
    return {
      atMm: railDistanceAt(line, stationMm) - beginsMm,
      wantedRadiusMm: radiusOf(curvature),
      formingRadiusMm: metal && radiusOf(curvature === 0 ? 0 : formingCurvature(section, metal, curvature)),
    }
  })
  return { track, element: easement.index, side, stations }
}

function radiusOf(curvature: number): number | null {
  return curvature === 0 ? null : 1 / curvature
}
