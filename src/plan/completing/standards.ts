import { formatMm } from '../../measure/length.ts'
import { type Assume, completed } from '../fields/complete.ts'
import type { CarInput } from '../rows/cars.ts'
import {
  CARS_PER_MINIMUM_RADIUS,
  MINIMUM_RADIUS_WITHOUT_CAR_MM,
  STANDARDS,
  type Standards,
  type StandardsInput,
} from '../rows/standards.ts'

/**
 * The rules for curves follow from the longest car. Without one, radii are checked against the smallest that is commonly
 * sold, and the straight between reverse curves is not checked.
 */
export function completeStandards(
  standards: StandardsInput,
  assume: Assume,
  cars: readonly CarInput[] = [],
): Standards {
  const longest = cars.toSorted((a, b) => b.length - a.length)[0]
  const carMm = standards.longestCar ?? longest?.length
  const follows = (given: number | undefined, at: string, mm: number, reason: string): number => {
    if (given === undefined) assume(at, formatMm(mm, 4), reason)
    return given ?? mm
  }
  return completed(STANDARDS, standards, '/standards', assume, {
    ...(cars.length === 0 && { maximumCouplerOffset: 'silent' as const }),
    longestCar: (given, at) => {
      if (given === undefined && longest)
        assume(at, formatMm(longest.length, 4), `the longest of the cars, ${longest.name}`)
      return carMm ?? null
    },
    ...(standards.shortGradeLength === undefined && { maximumShortGradePct: 'silent' as const }),
    minimumRadius: (given, at) =>
      carMm === undefined
        ? follows(given, at, MINIMUM_RADIUS_WITHOUT_CAR_MM, 'no longest car is given: the smallest curve commonly sold')
        : follows(given, at, CARS_PER_MINIMUM_RADIUS * carMm, 'three times the longest car, for reliable running'),
    minimumTangentBetweenReverseCurves: (given, at) => {
      if (carMm !== undefined) return follows(given, at, carMm, 'as long as the longest car (NEM 113)')
      if (given === undefined)
        assume(at, 'unchecked', 'neither minimumTangentBetweenReverseCurves nor longestCar is given')
      return given ?? null
    },
  })
}
