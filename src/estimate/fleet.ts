import { sum } from '../measure/sum.ts'
import { longestCarMm, type Stock } from '../network/standing-room.ts'
import type { WholePlan } from '../plan/rows/plan.ts'
import type { Standards } from '../plan/rows/standards.ts'
import { type CoupledCar, coupledLengthMm } from '../room/coupled-cars.ts'

/** A train made up of cars, over its couplers. */
export interface FleetTrain {
  readonly name: string
  readonly lengthMm: number
  readonly engineMm: number
}

/** The cars of a plan and its trains. */
export interface Fleet {
  readonly cars: readonly CoupledCar[]
  readonly trains: readonly FleetTrain[]
}

/** @param plan without faults: every train is made up of cars that the plan lists */
export function fleetOf({ cars: given, trains }: Pick<WholePlan, 'cars' | 'trains'>): Fleet {
  const cars = given.map(({ name, length, truckCentres, width, couplerLength }): CoupledCar => {
    return { name, lengthMm: length, truckCentresMm: truckCentres, widthMm: width, couplerMm: couplerLength }
  })
  const lengthMm = (name: string) => coupledLengthMm(cars.find((car) => car.name === name)!)
  return {
    cars,
    trains: trains.map(({ name, engine, cars: behind }) => {
      const engineMm = lengthMm(engine)
      const each = behind.map((entry) =>
        typeof entry === 'string' ? lengthMm(entry) : entry.count * lengthMm(entry.car),
      )
      return { name, engineMm, lengthMm: engineMm + sum(each) }
    }),
  }
}

/** What stands on the tracks, for the rules about standing room. */
export function stockOf({ cars, trains }: Fleet, { trackSpacing, longestCar }: Standards): Stock {
  return { cars, trains, spacingMm: trackSpacing, carMm: longestCarMm(cars, longestCar) }
}
