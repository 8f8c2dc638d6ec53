import { expect, test } from 'vitest'
import { blindRows, misses, type Row } from './rows.ts'
import { easedCurve } from './spirals.ts'

/*
 * A state's road design manual (MDT Road Design Manual, 2016, appendix K, page K-15 and after): R 3000 ft, spirals of 210 ft,
 * Δ 15°, PI at 243+18.72, feet. Published. It works p and k out by the series of Hickerson's *Route Location and Design*, and
 * the external and the stations from lengths that are rounded already.
 */
const curve = easedCurve({ radius: 3000, spiral: 210, angle: 15 })
const PI_STATION = 24_318.72
const ts = PI_STATION - curve.tangent
const row = (what: string, printed: number, computed: number, within: number): Row => ({
  what,
  printed,
  computed,
  within,
  label: 'published',
})

const rows = [
  row('p', 0.612, curve.shift, 5e-4),
  row('p by its tables', 0.612473, curve.shift, 1e-4),
  row('k', 104.996, curve.k, 5e-4),
  row('Ts', 500.034, curve.tangent, 5e-4),
  row('Es', 26.504, curve.external, 1e-3),
  row('arc', 575.4, curve.arcLength, 5e-3),
  row('TS', 23_818.69, ts, 5e-3),
  row('SC', 24_028.69, ts + 210, 5e-3),
  row('CS', 24_604.09, ts + 210 + curve.arcLength, 1e-2),
  row('ST', 24_814.09, ts + curve.length, 1e-2),
]

test('the spiralled curve of a road design manual', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(10)
  expect(blindRows(rows)).toEqual([])
})
