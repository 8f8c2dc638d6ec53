import type { Pose } from '../track/types.ts'
import type { Line } from './line.ts'
import { type CarPlan, overhangOn } from './overhang.ts'
import { type PlacedCar, placeCar, placeOnCar } from './placed-car.ts'

/** How far cars reach from the centre line to either side, square to it. */
export interface HalfWidths {
  readonly leftMm: number
  readonly rightMm: number
}

/** Beyond so many lengths of the car to either side the line does not matter. */
const REACH_LENGTHS = 1.5
/** Places of the car at which its sides are looked at, between those at which its corners pass. */
const SIDE_SAMPLES = 8
const MOST_STEPS = 20
const CORNER_SLACK_MM = 1e-6

/**
 * The room that a car takes at a station as it runs past: the furthest that any part of it reaches to the left and to the
 * right, square to the centre line there. Null where the line is too tight for the car.
 *
 * On constant curvature all along the car these are W/2 and the closed forms of `overhangOn`. Where the curvature
 * changes, the places of the car at which one of its corners passes the station are solved for; between them the side is
 * looked at in steps, closer about the furthest, and the peak taken from the parabola through the three nearest.
 * Checked against a car moved by fifths of a millimetre in tests/room/swept-width.test.ts.
 */
export function sweptHalfWidths(line: Line, car: CarPlan, atMm: number): HalfWidths | null {
  const reachMm = REACH_LENGTHS * car.lengthMm
  const curvature = line.steadyCurvature(atMm - reachMm, atMm + reachMm)
  if (curvature !== null) return onSteady(curvature, car)
  const here = line.poseAt(atMm)
  const atFront = passing(line, car, here, atMm, 1)
  const atRear = passing(line, car, here, atMm, -1)
  if (!atFront || !atRear) return null
  const left = [...atFront.leftMm, ...atRear.leftMm]
  const right = [...atFront.rightMm, ...atRear.rightMm]
  const [firstMm, lastMm] = [Math.min(...atFront.frontsMm), Math.max(...atRear.frontsMm)]
  const sides = (side: 1 | -1) => furthest(line, car, here, side, firstMm, lastMm)
  return { leftMm: Math.max(...left, sides(1)), rightMm: Math.max(...right, sides(-1)) }
}

function onSteady(curvature: number, car: CarPlan): HalfWidths | null {
  if (curvature === 0) return { leftMm: car.widthMm / 2, rightMm: car.widthMm / 2 }
  const radiusMm = 1 / Math.abs(curvature)
  if (2 * radiusMm <= car.truckCentresMm) return null
  const { insideReachMm, outsideReachMm } = overhangOn(radiusMm, car)
  return curvature > 0
    ? { leftMm: insideReachMm, rightMm: outsideReachMm }
    : { leftMm: outsideReachMm, rightMm: insideReachMm }
}

interface Passing {
  readonly leftMm: readonly number[]
  readonly rightMm: readonly number[]
  /** Stations of the front pivot. */
  readonly frontsMm: readonly number[]
}

/** The corners of one end (1 front, −1 rear) as each passes the line square to the track at a station. */
function passing(line: Line, car: CarPlan, here: Pose, atMm: number, end: 1 | -1): Passing | null {
  const [leftMm, rightMm, frontsMm] = [[], [], []] as [number[], number[], number[]]
  for (const side of [1, -1]) {
    const [ahead, aside] = [(end * car.lengthMm) / 2, (side * car.widthMm) / 2]
    let frontMm = atMm - ahead + car.truckCentresMm / 2
    let corner: readonly [number, number] | null = null
    for (let step = 0; step < MOST_STEPS; step++) {
      const placed = placeCar(line, car, frontMm)
      if (!placed) return null
      corner = inFrame(placeOnCar(placed, ahead, aside), here)
      if (Math.abs(corner[0]) <= CORNER_SLACK_MM) break
      frontMm -= corner[0]
    }
    leftMm.push(corner![1])
    rightMm.push(-corner![1])
    frontsMm.push(frontMm)
  }
  return { leftMm, rightMm, frontsMm }
}

/** Ahead and to the left of a pose. */
function inFrame(point: { readonly xMm: number; readonly yMm: number }, here: Pose): readonly [number, number] {
  const [dx, dy] = [point.xMm - here.xMm, point.yMm - here.yMm]
  const [cos, sin] = [Math.cos(here.headingRad), Math.sin(here.headingRad)]
  return [dx * cos + dy * sin, dy * cos - dx * sin]
}

/** How far its side reaches where the line square to the track meets it; nothing beyond its ends. */
function sideReach(placed: PlacedCar, { lengthMm, widthMm }: CarPlan, here: Pose, side: 1 | -1): number {
  const [ahead, left] = inFrame(placeOnCar(placed, 0, (side * widthMm) / 2), here)
  const turn = placed.middle.headingRad - here.headingRad
  const along = -ahead / Math.cos(turn)
  if (Math.abs(along) > lengthMm / 2 + CORNER_SLACK_MM) return Number.NEGATIVE_INFINITY
  return side * (left + along * Math.sin(turn))
}

/** The furthest a side of the car reaches while its front pivot runs between two stations. */
function furthest(line: Line, car: CarPlan, here: Pose, side: 1 | -1, firstMm: number, lastMm: number): number {
  const reachAt = (frontMm: number) => {
    const placed = placeCar(line, car, frontMm)
    return placed ? sideReach(placed, car, here, side) : Number.NEGATIVE_INFINITY
  }
  const stepMm = (lastMm - firstMm) / SIDE_SAMPLES
  const coarse = sampled(reachAt, firstMm, stepMm, SIDE_SAMPLES)
  const most = Math.max(...coarse)
  const aboutMm = firstMm + (coarse.indexOf(most) - 1) * stepMm
  return Math.max(most, peakOf(sampled(reachAt, aboutMm, stepMm / 4, 8)))
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
