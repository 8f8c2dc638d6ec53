import { expect, test } from 'vitest'
import { toDegrees, toRadians } from '../../src/measure/angle.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, poseAt, tangent } from '../track/tracks.ts'
import { blindRows, misses, type Row } from './rows.ts'
import { easedCurve } from './spirals.ts'

/*
 * "3 point calculation" in the manuals of several total stations (route surveying, such as manualshive.com 1312727, page 192,
 * metres): from BP at (100, 100) to IP, 141.421 m at an azimuth of 45°, and on to EP, 141.421 m to the right of it, IA 90°;
 * R 60 m, clothoids of parameter A 50 m at both ends. Published: stations and coordinates (N, E) of the start KA1 and the end
 * KA2 of the curve, and of the peg at 100 m. The azimuth is clockwise from N; here x is N and y is E, which mirrors the turn.
 */
const [BP_IP, RADIUS] = [141.421, 60]
const spiral = 50 ** 2 / RADIUS
const curve = easedCurve({ radius: RADIUS, spiral, angle: 90 })
const placed = placeElements(
  { xMm: 100, yMm: 100, headingRad: toRadians(45) },
  [
    tangent(BP_IP - curve.tangent),
    easement(spiral),
    arc(RADIUS, toDegrees(curve.arcLength / RADIUS), 'left'),
    easement(spiral),
  ],
  false,
)
const ka1 = placed[1]!
const ka2 = placed[3]!
const peg = poseAt(placed, 100)
const row = (what: string, printed: number, computed: number, within = 1e-3): Row => ({
  what,
  printed,
  computed,
  within,
  label: 'published',
})

const rows = [
  row('KA1, station', 59.471, ka1.fromMm),
  row('KA1, N', 142.052, ka1.start.xMm),
  row('KA1, E', 142.052, ka1.start.yMm),
  row('KA2, station', 195.386, ka2.toMm),
  row('KA2, N', 142.052, ka2.end.xMm),
  row('KA2, E', 257.948, ka2.end.yMm),
  row('peg at 100 m, N', 167.289, peg.xMm),
  row('peg at 100 m, E', 173.517, peg.yMm),
]

test('a route by three points', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(8)
  expect(blindRows(rows)).toEqual([])
})
