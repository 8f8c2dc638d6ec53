import { expect, test } from 'vitest'
import { poseAt } from '../track/tracks.ts'
import { blindRows, misses, type Row } from './rows.ts'
import { deflectionDeg, easedCurve } from './spirals.ts'
import { degrees } from './turnouts.ts'

/*
 * Setting out of a curve of R 1000 m with transitions of 95.093 m for 110 km/h, tangents that meet at 32°24′ and chainage
 * 1350.468 m: a civil engineer's worksheet (jfccivilengineer.com, "Horizontal curves"), published in metres and whole seconds, cut
 * off. It takes the deflection as l²/6RL, which is exact to a second here, and the tangent as (R + shift)·tan(Δ/2) + L/2, which is
 * 3.6 mm long: from the middle of a clothoid to its start is not half its length but 3.6 mm less, L/2·(1 − θ²/30 …).
 */
const SPIRAL = 95.093
const curve = easedCurve({ radius: 1000, spiral: SPIRAL, angle: degrees(32, 24) })
const DEFLECTIONS = [
  [7.715, degrees(0, 0, 21)],
  [27.715, degrees(0, 4, 37)],
  [47.715, degrees(0, 13, 43)],
  [67.715, degrees(0, 27, 37)],
  [87.715, degrees(0, 46, 21)],
  [95.093, degrees(0, 54, 29)],
] as const
const row = (what: string, printed: number, computed: number, within = 5e-4): Row => ({
  what,
  printed,
  computed,
  within,
  label: 'published',
})

const rows = [
  row('shift', 0.377, curve.shift),
  row('tangent', 338.183, curve.tangent, 4e-3),
  row('chainage of the start', 1012.285, 1350.468 - curve.tangent, 4e-3),
  row('chainage of the arc', 1107.378, 1350.468 - curve.tangent + SPIRAL, 4e-3),
  ...DEFLECTIONS.map(([s, deflection]) =>
    row(`deflection at ${s} m, degrees`, deflection, deflectionDeg(poseAt(curve.placed, s)), 1 / 3600),
  ),
]

test('the transitions of a worksheet', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(10)
  expect(blindRows(rows)).toEqual([])
})
