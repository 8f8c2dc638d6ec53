import { expect, test } from 'vitest'
import { pointIn, workedOut } from '../survey/nets.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * A circuit of four points levelled both ways, as the free geodetic program GNU Gama 1.5.09 adjusts it: "Sample 1D vertical
 * least square adjustment", printed at http://www.vrmapper.com/gama/1doutput.html. One elevation is known; every rise has a
 * standard deviation of 5 mm.
 */
const RISES: readonly (readonly [string, string, number])[] = [
  ['1a', '4', -1225],
  ['4', '3', -848],
  ['3', '2', 1342],
  ['2', '1a', 720],
  ['1a', '2', -724],
  ['2', '3', -1335],
  ['3', '4', 842],
  ['4', '1a', 1231],
]

const answer = workedOut({
  pegs: [{ name: '1a', x: 0, y: 0, elevation: 1_000_000 }],
  levels: RISES.map(([from, to, rise]) => ({ from, to, rise })),
  levelError: 5,
})

const elevation = (name: string, printed: number): Row => ({
  what: `elevation of ${name}, mm`,
  printed,
  computed: pointIn(answer, name).elevationMm!,
  within: 0.005,
  label: 'published',
})
const error = (name: string, printed: number): Row => ({
  what: `error of the elevation of ${name}, mm`,
  printed,
  computed: pointIn(answer, name).elevationErrorMm!,
  within: 0.05,
  label: 'published',
})

const ROWS: readonly Row[] = [
  elevation('4', 998_775.13),
  elevation('3', 997_933.25),
  elevation('2', 999_274.87),
  error('4', 3.1),
  error('3', 3.5),
  error('2', 3.1),
  { what: 'fit (m0′/m0)', printed: 5.42 / 5, computed: answer.fit!, within: 0.001, label: 'published' },
  {
    what: 'greatest test',
    printed: 1.68,
    computed: Math.max(...answer.readings.map(({ test: w }) => Math.abs(w!))),
    within: 0.005,
    label: 'published',
  },
]

test('the elevations, their errors, the fit and the greatest normalized residual are those printed', () => {
  expect(misses(ROWS)).toEqual([])
  expect(blindRows(ROWS)).toEqual([])
  // 8 rises, 3 unknown elevations.
  expect(answer.redundancy).toBe(5)
  const tests = answer.readings.map(({ test: w }) => Math.abs(w!))
  expect(tests.indexOf(Math.max(...tests)) + 1).toBe(6)
})
