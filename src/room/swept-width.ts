import type { Pose } from '../track/types.ts'
import type { Line } from './line.ts'
import { inFrame } from './outline.ts'
import { type CarPlan, overhangOn } from './overhang.ts'
import { type PlacedCar, placeCar, placeOnCar } from './placed-car.ts'

/** How far cars reach from the centre line to either side, square to it. */
export interface HalfWidths {
  readonly leftMm: number
  readonly rightMm: number
}

/**
 * A car that covers a station stands with its trucks no further from it than half its length and half its truck centres,
 * along the line a little more. Beyond that the line does not matter.
 */
const REACH = 0.65
/** Places of the car at which its sides are looked at, between those at which its corners pass. */
const SIDE_SAMPLES = 6
const MOST_STEPS = 20
const CORNER_SLACK_MM = 1e-4

/** A side of a line, seen along it: 1 left, −1 right. */
export type Side = 1 | -1

/**
 * The room that a car takes at a station as it runs past: the furthest that any part of it reaches to the left and to the
 * right, square to the centre line there. Null where the line is too tight for the car.
 */
export function sweptHalfWidths(line: Line, car: CarPlan, atMm: number): HalfWidths | null {
  const leftMm = sweptHalfWidth(line, car, atMm, 1)
  const rightMm = sweptHalfWidth(line, car, atMm, -1)
  return leftMm === null || rightMm === null ? null : { leftMm, rightMm }
}

/**
 * The same to one side.
 *
 * On constant curvature all along the car this is W/2 or a closed form of `overhangOn`. Where the curvature changes, the
 * places of the car at which one of its corners passes the station are solved for; between them the side is looked at in
 * steps, closer about the furthest, and the peak taken from the parabola through the three nearest.
 * Checked against a car moved by fifths of a millimetre in tests/room/swept-width.test.ts.
 */
export function sweptHalfWidth(line: Line, car: CarPlan, atMm: number, side: Side): number | null {
  const reachMm = REACH * (car.lengthMm + car.truckCentresMm)
  const curvature = line.steadyCurvature(atMm - reachMm, atMm + reachMm)
  if (curvature !== null) return onSteady(curvature * side, car)
  const here = line.poseAt(atMm)
  const front = passing(line, car, here, atMm, 1, side)
  const rear = passing(line, car, here, atMm, -1, side)
  if (!front || !rear) return null
  const cornersMm = Math.max(front.reachMm, rear.reachMm)
  return Math.max(cornersMm, furthest(line, car, here, side, front.frontMm, rear.frontMm, cornersMm))
}

/** @param curvature positive where the side is the inside of the curve */
function onSteady(curvature: number, car: CarPlan): number | null {
  if (curvature === 0) return car.widthMm / 2
  const radiusMm = 1 / Math.abs(curvature)
  if (2 * radiusMm <= car.truckCentresMm) return null
  const { insideReachMm, outsideReachMm } = overhangOn(radiusMm, car)
  return curvature > 0 ? insideReachMm : outsideReachMm
}

/** A corner of one end (1 front, −1 rear) as it passes the line square to the track at a station. */
function passing(line: Line, car: CarPlan, here: Pose, atMm: number, end: 1 | -1, side: Side) {
  const [ahead, aside] = [(end * car.lengthMm) / 2, (side * car.widthMm) / 2]
  let frontMm = atMm - ahead + car.truckCentresMm / 2
  let reachMm = 0
  for (let step = 0; step < MOST_STEPS; step++) {
    const placed = placeCar(line, car, frontMm)
    if (!placed) return null
    const [past, left] = inFrame(placeOnCar(placed, ahead, aside), here)
    reachMm = side * left
    if (Math.abs(past) <= CORNER_SLACK_MM) break
    frontMm -= past
  }
  return { reachMm, frontMm }
}

/** How far its side reaches where the line square to the track meets it; nothing beyond its ends. */
function sideReach(placed: PlacedCar, { lengthMm, widthMm }: CarPlan, here: Pose, side: Side): number {
  const [ahead, left] = inFrame(placeOnCar(placed, 0, (side * widthMm) / 2), here)
  const turn = placed.middle.headingRad - here.headingRad
  const along = -ahead / Math.cos(turn)
  if (Math.abs(along) > lengthMm / 2 + CORNER_SLACK_MM) return Number.NEGATIVE_INFINITY
  return side * (left + along * Math.sin(turn))
}

/** Sides that reach so much less than the corners, in the places looked at, do not matter between them either. */
const FAR_LESS_MM = 3

/** The furthest a side of the car reaches while its front pivot runs between two stations. */
function furthest(
  line: Line,
  car: CarPlan,
  here: Pose,
  side: Side,
  firstMm: number,
  lastMm: number,
  cornersMm: number,
): number {
  const reachAt = (frontMm: number) => {
    const placed = placeCar(line, car, frontMm)
    return placed ? sideReach(placed, car, here, side) : Number.NEGATIVE_INFINITY
  }
  const stepMm = (lastMm - firstMm) / SIDE_SAMPLES
  const coarse = sampled(reachAt, firstMm, stepMm, SIDE_SAMPLES)
  const most = Math.max(...coarse)
  if (most < cornersMm - FAR_LESS_MM) return most
  const aboutMm = firstMm + (coarse.indexOf(most) - 1) * stepMm
  return Math.max(most, peakOf(sampled(reachAt, aboutMm, stepMm / 3, 6)))
}

function sampled(reachAt: (frontMm: number) => number, fromMm: number, stepMm: number, steps: number): number[] {
  return Array.from({ length: steps + 1 }, (_, step) => reachAt(fromMm + step * stepMm))
}

/** The largest of evenly spaced values, or the peak of the parabola through it and its neighbours. */
function peakOf(values: readonly number[]): number {
  const most = Math.max(...values)
  const at = values.indexOf(most)
  const [before, after] = [values[at - 1], values[at + 1]]
  if (before === undefined || after === undefined) return most
  if (!Number.isFinite(before) || !Number.isFinite(after)) return most
  const bend = before - 2 * most + after
  return bend === 0 ? most : most - (after - before) ** 2 / (8 * bend)
}
