import { expect, test } from 'vitest'
import { hillOf, reversedHill } from '../../src/hauling/hill.ts'
import { pullAt } from '../../src/hauling/pull.ts'
import { asked, evenHill } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * The grade of repose of American textbooks on railway location (from memory): on the grade whose percentage is a twentieth
 * of the rolling resistance in pounds a ton a car just keeps rolling. 6 lb a ton is 0.3 %, 8 lb 0.4 %, 40 lb, as of garden
 * cars on plain bearings, 2 %. This is how rolling resistance is measured by coasting.
 */
const rows: Row[] = [6, 8, 40].map((lb) => ({
  what: `pull of a car of ${lb} lb a ton down its grade of repose`,
  printed: 0,
  computed: asked(evenHill(-lb / 20 / 100), [{ weightN: 2000, rolling: lb / 2000, curveMm: 0 }]),
  within: 1e-6,
  label: 'from memory',
}))

test('a car on its grade of repose neither asks nor pushes', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(3)
  expect(blindRows(rows)).toEqual([])
})

test('nor does it where the same hill is run over the other way', () => {
  const start = { xMm: 0, yMm: 0, headingRad: 0 }
  const straight = {
    index: 0,
    kind: 'tangent' as const,
    fromMm: 0,
    toMm: 1e5,
    lengthMm: 1e5,
    startCurvature: 0,
    endCurvature: 0,
    turnedRad: 0,
    start,
    end: start,
  }
  const up = hillOf({
    lengthMm: 1e5,
    closed: false,
    grades: [{ fromMm: 0, toMm: 1e5, grade: 0.02 }],
    placed: [straight],
  })
  expect(pullAt(reversedHill(up), [{ lengthMm: 500, weightN: 30, rolling: 0.02, curveMm: 15 }], 5e4).pullN).toBeCloseTo(
    0,
    9,
  )
})
