import { expect, test } from 'vitest'
import { asked, evenHill } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * The numerical illustration of rating tons in a textbook on the economics of railroads (chestofbooks.com, Railroad, §212):
 * on a 1 % grade a rating ton takes 22.6 lb, so 28,200 lb of tractive power handle 1248 of them; an engine of 130 tons counts
 * 128 %, or 166, which leaves 1082 behind the tender. What is on top of the 20 lb of the grade is rolling resistance.
 */
const RATING = { weightN: 2000, rolling: 2.6 / 2000, curveMm: 0 }
const TARE = { weightN: 2000, rolling: (1.28 * 22.6 - 20) / 2000, curveMm: 0 }
const hill = evenHill(0.01)
const eachLb = asked(hill, [RATING])
const engineLb = 130 * asked(hill, [TARE])

const rows: Row[] = [
  { what: 'a rating ton on 1 %, lb', printed: 22.6, computed: eachLb, within: 0.05, label: 'published' },
  { what: 'rating tons of 28,200 lb', printed: 1248, computed: 28_200 / eachLb, within: 0.5, label: 'published' },
  { what: 'rating tons of the engine', printed: 166, computed: engineLb / eachLb, within: 0.5, label: 'published' },
  {
    what: 'behind the tender',
    printed: 1082,
    computed: (28_200 - engineLb) / eachLb,
    within: 0.75,
    label: 'published',
  },
]

test('rating tons', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(4)
  expect(blindRows(rows)).toEqual([])
})
