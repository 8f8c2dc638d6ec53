import type { Line } from './line.ts'
import type { CarPlan } from './overhang.ts'
import { type Side, sweptHalfWidth } from './swept-width.ts'

/** Places of a line for each length of the car, between which its reach is taken to change evenly. */
const PLACES_IN_CAR = 32

/** How far one car reaches over the sides of a line; each place is worked out once. */
export class Envelope<C extends CarPlan = CarPlan> {
  readonly line: Line
  readonly car: C
  private readonly known = { 1: new Map<number, number>(), [-1]: new Map<number, number>() }

  constructor(line: Line, car: C) {
    this.line = line
    this.car = car
  }

  /** On curves that are too tight for the car, half its width: such curves are a fault of their own. */
  at(atMm: number, side: Side): number {
    const known = this.known[side]
    const there = known.get(atMm)
    if (there !== undefined) return there
    const reach = sweptHalfWidth(this.line, this.car, atMm, side) ?? this.car.widthMm / 2
    known.set(atMm, reach)
    return reach
  }

  /** The same from the two nearest of evenly spaced places: quicker, where many places are asked for. */
  about(atMm: number, side: Side, placesInCar = PLACES_IN_CAR): number {
    const stepMm = this.car.lengthMm / placesInCar
    const index = Math.floor(atMm / stepMm)
    const before = this.at(index * stepMm, side)
    const after = this.at((index + 1) * stepMm, side)
    return before + (after - before) * (atMm / stepMm - index)
  }
}
