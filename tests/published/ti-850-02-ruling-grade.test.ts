import { expect, test } from 'vitest'
import { asked, evenHill } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * US Army TI 850-02 (2000), equation 3-3, trial ruling grade: G = TE/(20·(W_eng + N·W_g)) − 0.15, percent, TE in pounds, weights
 * in short tons, gross weights of cars from its table 3-6; rolling takes as much as 0.15 % of grade. On that grade the train
 * must ask for TE. The equation has the sine of the slope equal to its tangent, which 0.01 % of the pull allows for. Published equation; the
 * trains are made up.
 */
const TRAINS = [
  { tractiveLb: 36_000, engineTons: 120, cars: 20, carTons: 105 },
  { tractiveLb: 60_000, engineTons: 130, cars: 30, carTons: 135 },
  { tractiveLb: 24_000, engineTons: 100, cars: 6, carTons: 190 },
  { tractiveLb: 36_000, engineTons: 120, cars: 12, carTons: 115 },
] as const

const rows: Row[] = TRAINS.map(({ tractiveLb, engineTons, cars, carTons }) => {
  const tons = engineTons + cars * carTons
  const gradePct = tractiveLb / (20 * tons) - 0.15
  return {
    what: `pull of ${tons} tons up ${gradePct.toFixed(3)} %, lb`,
    printed: tractiveLb,
    computed: asked(evenHill(gradePct / 100), [{ weightN: 2000 * tons, rolling: 0.0015, curveMm: 0 }]),
    within: 1e-4 * tractiveLb,
    label: 'published',
  }
})

test('a train on its trial ruling grade asks for what the engine has', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(4)
  expect(blindRows(rows)).toEqual([])
})
