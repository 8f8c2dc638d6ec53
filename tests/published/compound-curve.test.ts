import { expect, test } from 'vitest'
import { toRadians } from '../../src/measure/angle.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, ORIGIN } from '../track/tracks.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * Compound curves of surveying exercises, published with their solutions:
 * - homeworksource.com, problem 1004689, feet: R1 600 and R3 400, 45° and 20° of 65°. It works on from tangents and sines of
 *   four digits, so 0.02 ft are allowed.
 * - a board examination of November 2016 (mathalino.com, compound curves), metres, degrees over 20 m of arc: 6° over 24°, then
 *   4° over 36°, PC at km 10 + 420; its PCC is at km 10 + 500.
 */
function compound(first: { radius: number; angle: number }, second: { radius: number; angle: number }) {
  const placed = placeElements(
    ORIGIN,
    [arc(first.radius, first.angle, 'left'), arc(second.radius, second.angle, 'left')],
    false,
  )
  const [one, two] = placed
  const total = toRadians(first.angle + second.angle)
  const back = (pose: { xMm: number; yMm: number; headingRad: number }) => ({
    t: pose.yMm / Math.sin(pose.headingRad),
    x: pose.xMm - pose.yMm / Math.tan(pose.headingRad),
  })
  const whole = back(two!.end)
  // The second curve seen from its own start, for its tangent.
  const [alone] = placeElements(ORIGIN, [arc(second.radius, second.angle, 'left')], false)
  expect(two!.end.headingRad).toBeCloseTo(total, 12)
  return { t1: back(one!.end).x, t2: back(alone!.end).x, T1: whole.x, T2: whole.t, pcc: one!.toMm, pt: two!.toMm }
}

const feet = compound({ radius: 600, angle: 45 }, { radius: 400, angle: 20 })
const radiusOf = (degree: number) => (20 * 180) / Math.PI / degree
const metres = compound({ radius: radiusOf(6), angle: 24 }, { radius: radiusOf(4), angle: 36 })
const row = (what: string, printed: number, computed: number, within: number): Row => ({
  what,
  printed,
  computed,
  within,
  label: 'published',
})

const rows = [
  row('t1', 248.5, feet.t1, 0.05),
  row('t2', 70.53, feet.t2, 0.005),
  row('T1', 368.92, feet.T1, 0.02),
  row('T2', 319.45, feet.T2, 0.02),
  row('PCC', 10_500, 10_420 + metres.pcc, 1e-6),
]

test('compound curves', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(5)
  expect(blindRows(rows)).toEqual([])
})
