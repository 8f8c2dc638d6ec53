import { expect, test } from 'vitest'
import { blindRows, misses, type Row } from './rows.ts'
import { easedCurve } from './spirals.ts'

/*
 * Worked example in the manuals of several total stations (appendix "Calculate road alignment", such as manualshive.com
 * 1343536, pages 153 to 155, metres): two clothoids of parameter A 80 m to R 100 m, tangents that meet at 111°55′47″.
 * Published: L, τ, N and E of the end of the clothoid, its shift, N of the centre of the circle, and the tangent D.
 */
const LA = 111 + 55 / 60 + 47 / 3600
const spiral = 80 ** 2 / 100
const curve = easedCurve({ radius: 100, spiral, angle: LA })
const row = (what: string, printed: number, computed: number, within = 5e-4): Row => ({
  what,
  printed,
  computed,
  within,
  label: 'published',
})

const rows = [
  row('L', 64, spiral, 0.5),
  row('τ, rad', 0.32, curve.spiralRad, 5e-3),
  // 0.32 rad are 18°20′04.7″.
  row('τ, degrees', 18 + 20 / 60 + 6 / 3600, (curve.spiralRad * 180) / Math.PI, 2 / 3600),
  row('N', 63.348, curve.end.xMm),
  row('E', 6.777, curve.end.yMm),
  // From E and the cosine as rounded above.
  row('shift', 1.7, curve.shift, 1e-3),
  row('N of the centre', 31.891, curve.k),
  row('tangent', 182.468, curve.tangent, 1e-3),
  row('tangent of the other end', 182.468, curve.tangentOut, 1e-3),
]

test('the clothoids of the manual of a total station', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(9)
  expect(blindRows(rows)).toEqual([])
})
