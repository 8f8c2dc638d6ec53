import { expect, test } from 'vitest'
import { verticalCurve } from '../../src/track/vertical-curve.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * The first example on vertical curves of a textbook of highway engineering (Mannering and Washburn, *Principles of Highway
 * Engineering and Traffic Analysis*, example 3.1, feet, from memory): a sag of 600 ft, PVC at 170+00 and 1000 ft, −3.5 % to
 * +0.5 %; low point at 175+25 and 990.81 ft, PVI at 173+00 and 989.5 ft, PVT at 176+00 and 991.0 ft.
 */
const given = { fromMm: 17_000, elevationMm: 1000, lengthMm: 600, gradeInPct: -3.5, gradeOutPct: 0.5 }
const { turning, points, externalMm } = verticalCurve(given, [17_300, 17_600])
const [middle, end] = points
const row = (what: string, printed: number, computed: number, within: number): Row => ({
  what,
  printed,
  computed,
  within,
  label: 'from memory',
})

const rows = [
  row('station of the low point', 17_525, turning!.atMm, 0.005),
  row('its elevation', 990.81, turning!.elevationMm, 0.005),
  row('elevation of the PVI', 989.5, middle!.elevationMm - externalMm, 0.005),
  row('elevation of the PVT', 991, end!.elevationMm, 0.005),
  row('grade at the PVT', 0.5, end!.gradePct, 1e-9),
]

test('a sag of a textbook', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(5)
  expect(blindRows(rows)).toEqual([])
})
