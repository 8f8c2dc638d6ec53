import { poseOn } from './place.ts'
import type { Point } from './sample.ts'
import { type PlacedElement, partsOf } from './types.ts'

/** The smallest rectangle around a line, parallel to the sheet's edges. */
export interface Extent {
  readonly minXMm: number
  readonly maxXMm: number
  readonly minYMm: number
  readonly maxYMm: number
}

/**
 * The extent of the centre line of placed elements, exact to rounding; null without elements.
 *
 * x is greatest or least at an end of an element or where the heading is a multiple of π plus π/2, y where it is a
 * multiple of π. Only the first full turn from the flatter end has to be looked at: where curvature grows along a line
 * and keeps its sign, all that follows a point lies in the circle of curvature there (Kneser), and where the heading is
 * along one axis that circle goes no further along the other. An easement between opposite curves is divided where it
 * is straight. Tests: tests/track/extent.test.ts (closed forms for arcs, a fine sampling for everything).
 */
export function extentOf(placed: readonly PlacedElement[]): Extent | null {
  if (placed.length === 0) return null
  let [minXMm, maxXMm, minYMm, maxYMm] = [Infinity, -Infinity, Infinity, -Infinity]
  const include = ({ xMm, yMm }: Point) => {
    minXMm = Math.min(minXMm, xMm)
    maxXMm = Math.max(maxXMm, xMm)
    minYMm = Math.min(minYMm, yMm)
    maxYMm = Math.max(maxYMm, yMm)
  }
  for (const whole of placed)
    for (const element of partsOf(whole)) {
      include(element.start)
      include(element.end)
      for (const atMm of turningStations(element)) include(poseOn(element, atMm))
    }
  return { minXMm, maxXMm, minYMm, maxYMm }
}

/** A part of an element whose curvature keeps its sign, from its flatter end. */
interface Bend {
  readonly flatEndMm: number
  /** 1 if stations rise from the flatter end, −1 if they fall. */
  readonly direction: 1 | -1
  readonly lengthMm: number
  /** Curvatures without sign, per mm; the first is the smaller. */
  readonly flat: number
  readonly tight: number
  readonly headingRad: number
  /** The heading rises (1) or falls (−1) from the flatter end. */
  readonly turns: number
}

function bendsOf({ fromMm, toMm, startCurvature, endCurvature, start, end }: PlacedElement): Bend[] {
  const [k0, k1] = [startCurvature, endCurvature]
  if (k0 === 0 && k1 === 0) return []
  if (k0 * k1 < 0) {
    const straightMm = ((toMm - fromMm) * k0) / (k0 - k1)
    const atStraight = start.headingRad + (k0 * straightMm) / 2
    const flatEndMm = fromMm + straightMm
    const half = { flatEndMm, flat: 0, headingRad: atStraight }
    return [
      { ...half, direction: -1, lengthMm: straightMm, tight: Math.abs(k0), turns: -Math.sign(k0) },
      { ...half, direction: 1, lengthMm: toMm - flatEndMm, tight: Math.abs(k1), turns: Math.sign(k1) },
    ]
  }
  const sign = Math.sign(k0 || k1)
  const lengthMm = toMm - fromMm
  const [flat, tight] = [Math.min(Math.abs(k0), Math.abs(k1)), Math.max(Math.abs(k0), Math.abs(k1))]
  return Math.abs(k0) <= Math.abs(k1)
    ? [{ flatEndMm: fromMm, direction: 1, lengthMm, flat, tight, headingRad: start.headingRad, turns: sign }]
    : [{ flatEndMm: toMm, direction: -1, lengthMm, flat, tight, headingRad: end.headingRad, turns: -sign }]
}

const QUARTER = Math.PI / 2

/** Stations of the first full turn at which the heading is along an axis of the sheet. */
function turningStations(element: PlacedElement): number[] {
  const stations: number[] = []
  for (const { flatEndMm, direction, lengthMm, flat, tight, headingRad, turns } of bendsOf(element)) {
    const turnedRad = (lengthMm * (flat + tight)) / 2
    const quarters = turns > 0 ? Math.floor(headingRad / QUARTER) + 1 : Math.ceil(headingRad / QUARTER) - 1
    for (let n = 0; n < 4; n++) {
      const toTurn = Math.abs((quarters + turns * n) * QUARTER - headingRad)
      if (toTurn >= turnedRad) break
      stations.push(flatEndMm + direction * distanceTurning(toTurn, flat, tight, lengthMm))
    }
  }
  return stations
}

/** Solves flat·s + (tight − flat)·s²/(2L) = θ for s, in the form in which nothing cancels. */
function distanceTurning(rad: number, flat: number, tight: number, lengthMm: number): number {
  return (2 * rad) / (flat + Math.sqrt(flat * flat + (2 * rad * (tight - flat)) / lengthMm))
}
