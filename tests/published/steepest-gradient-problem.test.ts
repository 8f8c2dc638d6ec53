import { expect, test } from 'vitest'
import { asked, evenHill } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * An exercise of Indian textbooks on railway engineering (as set in the course UCE605): the steepest gradient for a
 * locomotive of 150 t with 20 t of tractive effort and 25 wagons of 25 t; rolling resistance 3 kg and 2.5 kg a tonne. The
 * inputs are published; the answer without the resistance of the air is derived here: (20 000 − 450 − 1562.5)/775 000.
 * A grade of 1 in n takes 1000/n kg of a tonne (published in the same books).
 */
const LOCOMOTIVE = { weightN: 150_000, rolling: 0.003, curveMm: 0 }
const WAGONS = { weightN: 25 * 25_000, rolling: 0.0025, curveMm: 0 }
const TONNE = { weightN: 1000, rolling: 0, curveMm: 0 }
const steepest = 17_987.5 / 775_000

const rows: Row[] = [
  {
    what: 'kg of a tonne on 1 in 100',
    printed: 10,
    computed: asked(evenHill(1 / 100), [TONNE]),
    within: 1e-6,
    label: 'published',
  },
  {
    what: 'kg of a tonne on 1 in 40',
    printed: 25,
    computed: asked(evenHill(1 / 40), [TONNE]),
    within: 1e-6,
    label: 'published',
  },
  {
    what: 'kg of the train on the level',
    printed: 2012.5,
    computed: asked(evenHill(0), [LOCOMOTIVE, WAGONS]),
    within: 1e-3,
    label: 'derived',
  },
  {
    what: 'kg on the steepest gradient',
    printed: 20_000,
    computed: asked(evenHill(steepest), [LOCOMOTIVE, WAGONS]),
    within: 0.01,
    label: 'derived',
  },
]

test('the steepest gradient takes all of the tractive effort', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(4)
  expect(blindRows(rows)).toEqual([])
})
