import type { Line } from './line.ts'
import type { CarPlan } from './overhang.ts'
import { placeCar, placeOnCar } from './placed-car.ts'

/** A car with what its couplers reach beyond its body. */
export interface CoupledCar extends CarPlan {
  readonly name: string
  readonly couplerMm: number
}

/** Over its couplers: what it takes of a train. */
export function coupledLengthMm({ lengthMm, couplerMm }: CoupledCar): number {
  return lengthMm + 2 * couplerMm
}

/** Between the neighbouring trucks of two of these cars. */
export function betweenTrucksMm(car: CoupledCar): number {
  return coupledLengthMm(car) - car.truckCentresMm
}

const MOST_STEPS = 20
const CLOSE_ENOUGH_MM = 1e-7

/**
 * How far the couplers of two cars of one kind are off each other sideways, the second ahead of the first, left positive;
 * null where the line is too tight for them.
 *
 * A coupler ends at a = L/2 + k ahead of the middle of its car, on the car's own line (L length, k coupler beyond the
 * body). The second car is placed so that the vector v between the two ends is square to the mean direction t of the
 * cars: v·t = 0; then |v| is the offset. On one arc it is 0, as both ends are equally far outside.
 * Checked by hand and against halving in tests/room/coupled-cars.test.ts.
 */
export function couplerOffsetMm(line: Line, car: CoupledCar, frontMm: number): number | null {
  const reachMm = car.lengthMm / 2 + car.couplerMm
  const first = placeCar(line, car, frontMm)
  if (!first) return null
  const end = placeOnCar(first, reachMm, 0)
  let secondMm = frontMm + coupledLengthMm(car)
  for (let step = 0; step < MOST_STEPS; step++) {
    const second = placeCar(line, car, secondMm)
    if (!second) return null
    const start = placeOnCar(second, -reachMm, 0)
    const [dx, dy] = [start.xMm - end.xMm, start.yMm - end.yMm]
    // The mean direction: their headings may differ by whole turns.
    const turned = second.middle.headingRad - first.middle.headingRad
    const along = first.middle.headingRad + Math.atan2(Math.sin(turned), Math.cos(turned)) / 2
    const ahead = dx * Math.cos(along) + dy * Math.sin(along)
    if (Math.abs(ahead) <= CLOSE_ENOUGH_MM) return dy * Math.cos(along) - dx * Math.sin(along)
    secondMm -= ahead
  }
  return null
}

export interface CouplersOff {
  readonly offsetMm: number
  /** Where the couplers are then, along the line. */
  readonly atMm: number
}

/** Places looked at for each length of a car, and closer about the worst of them. */
const PER_CAR = 10
const CLOSER = 4
const MOST_PEAKS = 3

/**
 * The most that the couplers of two cars of a kind are off each other, as they run over an S whose two curves meet
 * between two stations; null where the cars do not fit the line. The places of the couplers are looked at in steps of a
 * tenth of a car, then closer about the three worst; the offset is within 1 % of the worst, or 0.05 mm.
 * Checked against steps of 1 mm in tests/room/coupled-cars.test.ts.
 */
export function worstCouplerOffset(line: Line, car: CoupledCar, fromMm: number, toMm: number): CouplersOff | null {
  const lengthMm = coupledLengthMm(car)
  const toFront = betweenTrucksMm(car) / 2
  const offAt = (atMm: number): CouplersOff | null => {
    const offset = couplerOffsetMm(line, car, atMm - toFront)
    return offset === null ? null : { offsetMm: Math.abs(offset), atMm }
  }
  const stepMm = lengthMm / PER_CAR
  const steps = Math.ceil((toMm - fromMm) / stepMm) + 2 * PER_CAR
  const coarse = sampled(offAt, fromMm - lengthMm, stepMm, steps)
  const peaks = coarse && peaksOf(coarse)
  const closer = peaks?.map(({ atMm }) => sampled(offAt, atMm - stepMm, stepMm / CLOSER, 2 * CLOSER))
  if (!closer?.every((each) => each !== null)) return null
  return closer.flat().reduce((worst, off) => (off.offsetMm > worst.offsetMm ? off : worst))
}

/** The highest of those that no neighbour exceeds. */
function peaksOf(offs: readonly CouplersOff[]): CouplersOff[] {
  const mm = (index: number) => offs[index]?.offsetMm ?? 0
  return offs
    .filter(({ offsetMm }, index) => offsetMm >= mm(index - 1) && offsetMm >= mm(index + 1))
    .toSorted((a, b) => b.offsetMm - a.offsetMm)
    .slice(0, MOST_PEAKS)
}

/** Null where the cars do not fit somewhere. */
function sampled(
  offAt: (atMm: number) => CouplersOff | null,
  fromMm: number,
  stepMm: number,
  steps: number,
): CouplersOff[] | null {
  const offs: CouplersOff[] = []
  for (let step = 0; step <= steps; step++) {
    const off = offAt(fromMm + step * stepMm)
    if (!off) return null
    offs.push(off)
  }
  return offs
}
