import type { Fault } from '../../measure/fault.ts'
import { meantName } from '../fields/nearest.ts'
import type { PlanDraft } from '../reading/draft.ts'

/** A train whose current is to be taken, and of which the plan does not say enough for that. */
export function trainPowerFaults({ power, trains = [], cars = [] }: PlanDraft): Fault[] {
  if (typeof power !== 'object' || power.train === undefined) return []
  const refuse = (code: string, detail: string, hint: string): Fault[] => [
    { path: ['power', 'train'], code, detail, hint },
  ]
  const train = trains.find((each) => each?.name === power.train)
  if (!train) {
    // A train that could not be read may be the one meant.
    if (trains.includes(null)) return []
    const names = trains.flatMap((each) => each?.name ?? [])
    const meant = meantName(power.train, names)
    const hint = meant === null ? 'use the name of one of trains, or give currentA' : `did you mean "${meant}"?`
    return refuse('unknown-value', `there is no train "${power.train}" in this plan`, hint)
  }
  const names = [train.engine, ...(train.cars ?? []).map((entry) => (typeof entry === 'string' ? entry : entry.car))]
  const used = names.flatMap((name) => cars.find((car) => car?.name === name) ?? [])
  // A car that is not listed or could not be read is reported by itself.
  if (used.length < names.length) return []
  const missing = [
    ...(train.speedMPerS === undefined ? ['the speed of the train (speedMPerS)'] : []),
    ...(used[0]!.engine?.drive === 'track-electric' ? [] : ['an engine whose drive is track-electric']),
    ...used.flatMap((car, index) =>
      car.massKg === undefined && used.indexOf(car) === index ? [`the mass of ${car.name} (massKg)`] : [],
    ),
  ]
  if (missing.length === 0) return []
  return refuse(
    'contradictory',
    `the current of "${train.name}" cannot be worked out without ${missing.join(', ')}`,
    'give these, or currentA in place of train',
  )
}
