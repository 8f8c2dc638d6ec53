import type { Pose } from '../track/types.ts'
import type { Line } from './line.ts'
import type { CarPlan } from './overhang.ts'
import { type HalfWidths, sweptHalfWidths } from './swept-width.ts'

/** The room that cars take at a station of a line. */
export interface Room {
  /** Nowhere less, to either side. */
  readonly leastMm: number
  at(line: Line, atMm: number): HalfWidths
}

/** That of whichever car reaches furthest. */
export function roomOfCars(cars: readonly CarPlan[]): Room {
  const leastMm = Math.max(...cars.map(({ widthMm }) => widthMm)) / 2
  return {
    leastMm,
    at: (line, atMm) => {
      let [leftMm, rightMm] = [leastMm, leastMm]
      for (const car of cars) {
        const swept = sweptHalfWidths(line, car, atMm)
        if (!swept) continue
        leftMm = Math.max(leftMm, swept.leftMm)
        rightMm = Math.max(rightMm, swept.rightMm)
      }
      return { leftMm, rightMm }
    },
  }
}

/** Half of a spacing of tracks, everywhere. */
export function roomOfSpacing(spacingMm: number): Room {
  const half = { leftMm: spacingMm / 2, rightMm: spacingMm / 2 }
  return { leastMm: spacingMm / 2, at: () => half }
}

const CLOSE_ENOUGH_MM = 0.01
const LEAST_STEP_MM = 2
const MOST_STEPS = 400
/** Nearer than this the lines are one. */
const SAME_PLACE_MM = 1e-6
/** Where lines run almost side by side no larger step is taken than this many times what is missing. */
const LEAST_SLOPE = 0.05

/**
 * Where a car on one line stands clear of all cars on another: the first distance along the line, from a place where it
 * does not, at which the end of the room that cars take there,
 *
 * P(s) ± w(s)·n(s),
 *
 * is as far from the other centre line as cars on that reach to this side. P the centre line, n square to it, w the
 * half-width of the cars towards the other line. Beyond it the lines are taken to draw apart. Null where there is no such
 * place up to the end of the line.
 *
 * The distance cannot grow faster than one goes, so what is missing can be gone without passing the place; near it,
 * Newton's method with the angle between the lines. Checked by closed forms and by cars as polygons in
 * tests/room/clearing.test.ts.
 */
export function clearsAt(line: Line, other: Line, fromMm: number, otherMm: number, room: Room): number | null {
  const least = { leftMm: room.leastMm, rightMm: room.leastMm }
  let nearMm = otherMm
  let atMm = fromMm
  for (let step = 0; step < MOST_STEPS && atMm <= line.lengthMm; step++) {
    const rough = missingAt(line, other, atMm, nearMm, least, () => least)
    nearMm = rough.nearMm
    if (rough.missingMm > 0) {
      atMm += Math.max(LEAST_STEP_MM, rough.missingMm)
      continue
    }
    const exact = missingAt(line, other, atMm, nearMm, room.at(line, atMm), (mm) => room.at(other, mm))
    if (Math.abs(exact.missingMm) <= CLOSE_ENOUGH_MM) return atMm
    const nextMm = atMm + exact.missingMm / Math.max(LEAST_SLOPE, exact.slope)
    if (nextMm <= fromMm) return fromMm
    atMm = nextMm
  }
  return null
}

interface Missing {
  /** How much further the lines would have to be apart; negative where there is more room. */
  readonly missingMm: number
  /** The sine of the angle between the lines. */
  readonly slope: number
  /** The nearest place of the other line. */
  readonly nearMm: number
}

function missingAt(
  line: Line,
  other: Line,
  atMm: number,
  guessMm: number,
  own: HalfWidths,
  ofOther: (mm: number) => HalfWidths,
): Missing {
  const here = line.poseAt(atMm)
  // To which side the other line lies, from the nearest place of the centre line.
  const beside = nearestOn(other, here, guessMm)
  const besideMm = leftOf(here, beside.pose)
  const slope = Math.abs(Math.sin(here.headingRad - beside.pose.headingRad))
  if (Math.abs(besideMm) < SAME_PLACE_MM) return { missingMm: own.leftMm + own.rightMm, slope, nearMm: beside.nearMm }
  const isLeft = besideMm > 0
  const aside = isLeft ? own.leftMm : -own.rightMm
  const end = { xMm: here.xMm - aside * Math.sin(here.headingRad), yMm: here.yMm + aside * Math.cos(here.headingRad) }
  const { nearMm, pose } = nearestOn(other, end, beside.nearMm)
  // Which side of the other line faces this one.
  const { leftMm, rightMm } = ofOther(nearMm)
  const wantedMm = leftOf(pose, here) > 0 ? leftMm : rightMm
  const apartMm = Math.hypot(end.xMm - pose.xMm, end.yMm - pose.yMm)
  // The end of the room may be beyond the other line.
  const isBeyond = leftOf(pose, here) * leftOf(pose, end) < 0
  return { missingMm: wantedMm - (isBeyond ? -apartMm : apartMm), slope, nearMm }
}

function leftOf({ xMm, yMm, headingRad }: Pose, place: { readonly xMm: number; readonly yMm: number }): number {
  return (place.yMm - yMm) * Math.cos(headingRad) - (place.xMm - xMm) * Math.sin(headingRad)
}

const MOST_NEARER = 12

/** The place of a line nearest to a point, looked for from a guess; no further than its ends. */
function nearestOn(line: Line, { xMm, yMm }: { readonly xMm: number; readonly yMm: number }, guessMm: number) {
  let nearMm = Math.min(line.lengthMm, Math.max(0, guessMm))
  let pose = line.poseAt(nearMm)
  for (let step = 0; step < MOST_NEARER; step++) {
    const aheadMm = (xMm - pose.xMm) * Math.cos(pose.headingRad) + (yMm - pose.yMm) * Math.sin(pose.headingRad)
    const nextMm = Math.min(line.lengthMm, Math.max(0, nearMm + aheadMm))
    const moved = Math.abs(nextMm - nearMm)
    nearMm = nextMm
    pose = line.poseAt(nearMm)
    if (moved < 1e-6) break
  }
  return { nearMm, pose }
}
