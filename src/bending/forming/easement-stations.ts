import { type RailLine, railDistanceAt } from '../../track/rails.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { BendFormer } from './form-bend.ts'
import type { EasementForming } from './types.ts'

/** An easement is marked at its ends and at every eighth between. */
const PARTS = 8
const EIGHTHS = Array.from({ length: PARTS + 1 }, (_, part) => part)

/**
 * Forming radii and bender settings along one rail of an easement, by distance along that rail. The rail's own curvature is κ/(1 − o·κ), κ
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
  // In this form a curve's easements in and out have exactly the same curvatures, which are then calculated once.
  const ofRail = EIGHTHS.map((part) => {
    const curvature = (startCurvature * (PARTS - part) + endCurvature * part) / PARTS
    return curvature / (1 - line.offsetLeftMm * curvature)
  })
  const settings = settingsOf(ofRail, former)
  const stations = ofRail.map((curvature, part) => {
    const stationMm = part === PARTS ? toMm : fromMm + (lengthMm * part) / PARTS
    return {
      atMm: railDistanceAt(line, stationMm) - beginsMm,
      wantedRadiusMm: radiusOf(Math.abs(curvature)),
      formingRadiusMm: radiusOf(former.formingCurvature(Math.abs(curvature))),
      depthMm: settings[part]?.depthMm ?? null,
      turns: settings[part]?.turns ?? null,
    }
  })
  return { track, element, side, stations }
}

/** By place. An easement from a curve to one of the other hand is two, each with the passes of its own curve. */
function settingsOf(curvatures: readonly number[], former: BendFormer) {
  const [left, right] = [1, -1].map((sign) =>
    former.settingsAlong(curvatures.map((curvature) => Math.max(0, sign * curvature))),
  )
  return curvatures.map((curvature, place) => (curvature < 0 ? right : left)![place]!)
}

function radiusOf(curvature: number | null): number | null {
  return curvature === null || curvature === 0 ? null : 1 / curvature
}
