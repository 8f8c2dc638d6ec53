import { expect, test } from 'vitest'
import { simpleCurve } from './curve-parts.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * NMRA Standard S-8, track centers on curves: the head of its table gives the curvature of the prototype in degrees (angle over
 * a chord of 100 ft) with its radius in whole feet. Published. Each row lays a curve of that many degrees and that radius; its
 * long chord is 100 ft, within what half a foot of the radius is worth.
 */
const HEAD = [
  [5, 1146],
  [10, 574],
  [15, 383],
  [20, 288],
  [25, 231],
  [30, 193],
  [35, 166],
  [40, 146],
  [45, 131],
] as const

const rows: Row[] = HEAD.map(([degree, radius]) => ({
  what: `chord of ${degree}° at ${radius} ft`,
  printed: 100,
  computed: simpleCurve({ kind: 'arc', radius, angle: degree, turn: 'left' }).longChord,
  within: 50 / radius,
  label: 'published',
}))

test('the degrees of curve of S-8', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(9)
  expect(blindRows(rows)).toEqual([])
})
