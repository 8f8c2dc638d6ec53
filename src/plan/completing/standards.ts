import { formatMm } from '../../measure/length.ts'
import { type Assume, completed } from '../fields/complete.ts'
import { CARS_PER_MINIMUM_RADIUS, STANDARDS, type Standards, type StandardsInput } from '../rows/standards.ts'

/** The rules for curves follow from the longest car; without one they are not checked. */
export function completeStandards(standards: StandardsInput, assume: Assume): Standards {
  const { longestCar: carMm } = standards
  const fromCar = (name: string, cars: number, rule: string) => (given: number | undefined, at: string) => {
    if (given !== undefined) return given
    if (carMm === undefined) assume(at, 'unchecked', `neither ${name} nor longestCar is given`)
    else assume(at, formatMm(cars * carMm, 4), rule)
    return carMm === undefined ? null : cars * carMm
  }
  return completed(STANDARDS, standards, '/standards', assume, {
    minimumRadius: fromCar(
      'minimumRadius',
      CARS_PER_MINIMUM_RADIUS,
      'three times the longest car, for reliable running',
    ),
    minimumTangentBetweenReverseCurves: fromCar(
      'minimumTangentBetweenReverseCurves',
      1,
      'as long as the longest car (NEM 113)',
    ),
  })
}
