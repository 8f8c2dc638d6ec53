import type { Point } from '../track/sample.ts'
import type { Pose } from '../track/types.ts'
import type { Line } from './line.ts'
import type { CarPlan } from './overhang.ts'

/** A car on a line, its two truck pivots on the centre line. */
export interface PlacedCar {
  /** Where its pivots are along the line. */
  readonly frontMm: number
  readonly rearMm: number
  /** Its middle, and the direction of its body. */
  readonly middle: Pose
}

const MOST_STEPS = 30
const CLOSE_ENOUGH_MM = 1e-9
/** A chord that meets the line at a steeper angle has no place on it: the curve is too tight for the car. */
const LEAST_COSINE = 0.2

/**
 * Where a car stands whose front pivot is at a station: its rear pivot is the place s behind it at which
 *
 * |P(front) − P(s)| = C
 *
 * P the centre line, C truck centres. Solved by Newton's method from s = front − C; null where the line curves too tightly
 * for the car (R near C/2). Checked against closed forms on an arc and by the distance itself in
 * tests/room/placed-car.test.ts.
 */
export function placeCar(line: Line, { truckCentresMm }: CarPlan, frontMm: number): PlacedCar | null {
  const front = line.poseAt(frontMm)
  let rearMm = frontMm - truckCentresMm
  for (let step = 0; step < MOST_STEPS; step++) {
    const rear = line.poseAt(rearMm)
    const [dx, dy] = [front.xMm - rear.xMm, front.yMm - rear.yMm]
    const apartMm = apart(dx, dy)
    const error = apartMm - truckCentresMm
    if (Math.abs(error) <= CLOSE_ENOUGH_MM * Math.max(1, truckCentresMm)) {
      const middle = {
        xMm: (front.xMm + rear.xMm) / 2,
        yMm: (front.yMm + rear.yMm) / 2,
        headingRad: Math.atan2(dy, dx),
      }
      return { frontMm, rearMm, middle }
    }
    const cosine = (dx * Math.cos(rear.headingRad) + dy * Math.sin(rear.headingRad)) / apartMm
    if (!(cosine > LEAST_COSINE)) return null
    rearMm += error / cosine
  }
  return null
}

/** A place of the car: so far ahead of its middle and to the left of its own line. */
export function placeOnCar({ middle: { xMm, yMm, headingRad } }: PlacedCar, aheadMm: number, leftMm: number): Point {
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  return { xMm: xMm + aheadMm * cos - leftMm * sin, yMm: yMm + aheadMm * sin + leftMm * cos }
}

/** Math.hypot to the last digit, but in half its time: cars are placed a hundred thousand times for a large plan. */
function apart(dx: number, dy: number): number {
  const most = Math.max(Math.abs(dx), Math.abs(dy))
  if (most === 0) return 0
  const [x, y] = [dx / most, dy / most]
  return Math.sqrt(x * x + y * y) * most
}
