import type { Pose } from '../track/types.ts'
import type { Line } from './line.ts'
import type { CarPlan } from './overhang.ts'
import { mostReachMm } from './reach.ts'
import { type Side, sweptHalfWidth } from './swept-width.ts'

/** The room that cars take at a station of a line, to one side. */
export interface Room {
  /** Nowhere less. */
  readonly leastMm: number
  at(line: Line, atMm: number, side: Side): number
}

/** That of whichever car reaches furthest; those that reach less than another anywhere on the line are not looked at. */
export function roomOfCars(cars: readonly CarPlan[]): Room {
  const leastMm = Math.max(...cars.map(({ widthMm }) => widthMm)) / 2
  const known = new WeakMap<Line, Reaching[]>()
  const reachingOn = (line: Line): Reaching[] => {
    const there = known.get(line) ?? reaching(line, cars)
    known.set(line, there)
    return there
  }
  return {
    leastMm,
    at: (line, atMm, side) => {
      let reachMm = leastMm
      for (const { car, mostMm } of reachingOn(line)) {
        if (mostMm <= reachMm) break
        reachMm = Math.max(reachMm, sweptHalfWidth(line, car, atMm, side) ?? 0)
      }
      return reachMm
    },
  }
}

interface Reaching {
  readonly car: CarPlan
  /** It reaches no further anywhere on the line. */
  readonly mostMm: number
}

/** Those first that may reach furthest. */
function reaching(line: Line, cars: readonly CarPlan[]): Reaching[] {
  return cars.map((car) => ({ car, mostMm: mostReachMm(line, car) })).sort((a, b) => b.mostMm - a.mostMm)
}

/** Half of a spacing of tracks, everywhere. */
export function roomOfSpacing(spacingMm: number): Room {
  return { leastMm: spacingMm / 2, at: () => spacingMm / 2 }
}

const CLOSE_ENOUGH_MM = 0.01
const LEAST_STEP_MM = 0.02
const MOST_STEPS = 1_000
/** How often the room is looked up again where the lines are clear for what it was before. */
const MOST_ROUNDS = 12
/** Where lines run almost side by side, no larger steps are taken than this angle would make. */
const LEAST_SLOPE = 0.05
/** When so little is missing, the angle between the lines tells how far it is. */
const NEAR_MM = 60
const NOT_PAST = 0.9
const MOST_BY_ANGLE = 1 / LEAST_SLOPE
/** Nearer than this the lines are one. */
const SAME_PLACE_MM = 1e-6

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
 * With a constant w the distance cannot grow faster than one goes, so what is missing can be gone without passing the
 * place; near it, Newton's method with the angle between the lines. Then w is looked up there, until it stays. Checked by closed forms and by cars as polygons in
 * tests/room/clearing.test.ts.
 */
export function clearsAt(line: Line, other: Line, fromMm: number, otherMm: number, room: Room): number | null {
  let [ownMm, theirMm] = [room.leastMm, room.leastMm]
  let nearMm = otherMm
  let atMm = fromMm
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const clear = clearsWith(line, other, atMm, nearMm, ownMm, theirMm)
    if (!clear) return null
    ;({ atMm, nearMm } = clear)
    const [own, their] = [room.at(line, atMm, clear.side), room.at(other, nearMm, clear.otherSide)]
    const moreMm = own + their - ownMm - theirMm
    if (Math.abs(moreMm) <= CLOSE_ENOUGH_MM) return atMm
    // Where there is room to spare it was nearer.
    if (moreMm < 0) atMm = Math.max(fromMm, atMm + moreMm / Math.max(LEAST_SLOPE, clear.slope))
    ownMm = own
    theirMm = their
  }
  return atMm
}

interface Clear {
  readonly atMm: number
  /** The nearest place of the other line, and the sides on which the lines face each other. */
  readonly nearMm: number
  readonly side: Side
  readonly otherSide: Side
  /** The sine of the angle between the lines. */
  readonly slope: number
}

/** The same for cars that take the same room everywhere. */
function clearsWith(
  line: Line,
  other: Line,
  fromMm: number,
  otherMm: number,
  ownMm: number,
  theirMm: number,
): Clear | null {
  let nearMm = otherMm
  let atMm = fromMm
  for (let step = 0; step < MOST_STEPS && atMm <= line.lengthMm; step++) {
    const { missingMm, ...facing } = facingAt(line, other, atMm, nearMm, ownMm, theirMm)
    if (missingMm <= CLOSE_ENOUGH_MM) return { atMm, ...facing }
    nearMm = facing.nearMm
    // Close to it, by the angle; a little less, so that it is not passed by.
    const byAngle = facing.slope > 0 && missingMm < NEAR_MM ? (NOT_PAST * missingMm) / facing.slope : 0
    atMm += Math.max(missingMm, Math.min(byAngle, MOST_BY_ANGLE * missingMm), LEAST_STEP_MM)
  }
  return null
}

/**
 * How a line lies beside another at a station: the nearest place of the other to the end of the room that cars take to
 * its side, and how much is missing there for cars on the other line to clear it.
 */
export function facingAt(line: Line, other: Line, atMm: number, guessMm: number, ownMm: number, theirMm: number) {
  const here = line.poseAt(atMm)
  // To which side the other line lies, from the nearest place of the centre line.
  const beside = nearestOn(other, here, guessMm)
  const besideMm = leftOf(here, beside.pose)
  const slope = Math.abs(Math.sin(here.headingRad - beside.pose.headingRad))
  const side: Side = besideMm > 0 ? 1 : -1
  const otherSide: Side = leftOf(beside.pose, here) > 0 ? 1 : -1
  if (Math.hypot(here.xMm - beside.pose.xMm, here.yMm - beside.pose.yMm) < SAME_PLACE_MM)
    return { missingMm: theirMm + ownMm * Math.sqrt(1 - slope ** 2), nearMm: beside.nearMm, side, otherSide, slope }
  const aside = side * ownMm
  const end = { xMm: here.xMm - aside * Math.sin(here.headingRad), yMm: here.yMm + aside * Math.cos(here.headingRad) }
  const { nearMm, pose } = nearestOn(other, end, beside.nearMm)
  const apartMm = Math.hypot(end.xMm - pose.xMm, end.yMm - pose.yMm)
  // The end of the room may be beyond the other line.
  const isBeyond = leftOf(pose, here) * leftOf(pose, end) < 0
  return { missingMm: theirMm - (isBeyond ? -apartMm : apartMm), nearMm, side, otherSide, slope }
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
