import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { meantName } from '../fields/nearest.ts'
import type { PlanDraft } from '../reading/draft.ts'
import type { CarInput } from '../rows/cars.ts'
import { duplicateNames } from './duplicate-names.ts'

/** Contradictions among cars, and between trains and cars. */
export function carFaults({ cars = [], trains = [] }: PlanDraft): Fault[] {
  const known = cars.map((car) => car?.name)
  const used = (name: string, path: Fault['path']): Fault[] => {
    // A car that could not be read may be the one meant.
    if (known.includes(name) || known.includes(undefined)) return []
    const detail = `there is no car "${name}" in this plan`
    return [{ path, code: 'unknown-value', detail, hint: carHint(name, known as string[]) }]
  }
  return [
    ...duplicateNames(known, 'cars', 'car'),
    ...cars.flatMap((car, index): Fault[] =>
      car && exceeds(car.truckCentres, car.length)
        ? [
            {
              path: ['cars', index, 'truckCentres'],
              code: 'contradictory',
              detail: `the trucks are ${formatMm(car.truckCentres, 3)} apart, more than the ${formatMm(car.length, 3)} of the car`,
              hint: 'truckCentres is the distance between the pivots of the trucks, less than the length of the body',
            },
          ]
        : [],
    ),
    ...cars.flatMap((car, index) => (car ? driverFaults(car, index) : [])),
    ...duplicateNames(
      trains.map((train) => train?.name),
      'trains',
      'train',
    ),
    ...trains.flatMap((train, index): Fault[] => {
      if (!train) return []
      const at = ['trains', index]
      const behind = (train.cars ?? []).flatMap((entry, place) =>
        typeof entry === 'string'
          ? used(entry, [...at, 'cars', place])
          : used(entry.car, [...at, 'cars', place, 'car']),
      )
      return [...used(train.engine, [...at, 'engine']), ...behind]
    }),
  ]
}

/** More on the driven wheels than the engine weighs. */
function driverFaults({ massKg, engine }: CarInput, index: number): Fault[] {
  const onDriversKg = engine?.massOnDriversKg
  if (massKg === undefined || onDriversKg === undefined || onDriversKg <= massKg) return []
  return [
    {
      path: ['cars', index, 'engine', 'massOnDriversKg'],
      code: 'contradictory',
      detail: `${onDriversKg} kg on the driven wheels are more than the ${massKg} kg of the engine`,
      hint: 'massKg is that of the whole engine, with its tender',
    },
  ]
}

function carHint(name: string, known: readonly string[]): string {
  const meant = meantName(name, known)
  if (meant !== null) return `did you mean "${meant}"?`
  return known.length === 0 ? 'list it under cars' : `use one of ${known.map((each) => `"${each}"`).join(', ')}`
}
