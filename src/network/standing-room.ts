import { roomOfCars, roomOfSpacing } from '../room/clearing.ts'
import { type CoupledCar, coupledLengthMm } from '../room/coupled-cars.ts'
import { type Fouling, foulingOf, type KnownLegs } from './fouling.ts'
import type { Network } from './network.ts'
import { type Standing, standingOn, type TrainToStand } from './standing.ts'

/** What stands on the tracks. */
export interface Stock {
  readonly cars: readonly CoupledCar[]
  readonly trains: readonly (TrainToStand & { readonly engineMm: number })[]
  /** Distance of tracks at which cars on them clear each other, where the plan gives it. */
  readonly spacingMm: number | null
  /** Length of the longest car over its couplers, or as the plan gives it alone. */
  readonly carMm: number | null
}

export interface StandingRoom {
  readonly fouling: Fouling
  readonly standing: readonly Standing[]
}

/** Remembered as long as the list of cars is: a plan is tried many times with other elements. */
const KNOWN = new WeakMap<readonly CoupledCar[], KnownLegs>()

/** Either cars or a spacing of tracks have to say how much room there must be. */
export function standingRoom(network: Network, { cars, spacingMm }: Stock): StandingRoom {
  const fouling = spacingMm === null ? foulingByCars(network, cars) : foulingOf(network, roomOfSpacing(spacingMm))
  return { fouling, standing: standingOn(network, fouling.fouled) }
}

function foulingByCars(network: Network, cars: readonly CoupledCar[]): Fouling {
  const known: KnownLegs = KNOWN.get(cars) ?? new Map()
  KNOWN.set(cars, known)
  return foulingOf(network, roomOfCars(cars), known)
}

/** The longest car over its couplers; without cars the length given. */
export function longestCarMm(cars: readonly CoupledCar[], givenMm: number | null): number | null {
  return cars.length === 0 ? givenMm : Math.max(...cars.map(coupledLengthMm))
}
