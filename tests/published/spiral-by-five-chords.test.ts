import { expect, test } from 'vitest'
import { poseAt } from '../track/tracks.ts'
import { blindRows, misses, type Row } from './rows.ts'
import { deflectionDeg, easedCurve } from './spirals.ts'
import { degrees } from './turnouts.ts'

/*
 * A spiral of 300 ft to a 9° curve (arc definition, R 636.62 ft) staked by five chords of 60 ft from its start, by infinite
 * series: J. Mahun, Open Access Surveying Library, horizontal curves, spirals (also at scribd.com/document/434248718). Published:
 * x, y to 0.01 ft, deflection to 1″. Two of its numbers are misprints: x at 180 ft reads 198.87 (its own total chord beside it,
 * 179.87, is the x meant), and the total chords from 120 ft on repeat x; the chord of (119.98, 1.51) is 119.99.
 * x at 240 ft is 239.4548, which was rounded twice.
 */
const curve = easedCurve({ radius: 5729.578 / 9, spiral: 300, angle: 60 })
const TABLE = [
  { s: 60, x: 60, y: 0.19, deflection: degrees(0, 10, 48) },
  { s: 120, x: 119.98, y: 1.51, deflection: degrees(0, 43, 12) },
  { s: 180, x: 179.87, y: 5.09, deflection: degrees(1, 37, 12) },
  { s: 240, x: 239.46, y: 12.04, deflection: degrees(2, 52, 46) },
  { s: 300, x: 298.34, y: 23.47, deflection: degrees(4, 29, 52) },
]

const rows: Row[] = TABLE.flatMap(({ s, x, y, deflection }): Row[] => {
  const at = poseAt(curve.placed, s)
  return [
    { what: `x at ${s} ft`, printed: x, computed: at.xMm, within: s === 240 ? 0.006 : 0.005, label: 'published' },
    { what: `y at ${s} ft`, printed: y, computed: at.yMm, within: 0.005, label: 'published' },
    {
      what: `deflection at ${s} ft, degrees`,
      printed: deflection,
      computed: deflectionDeg(at),
      within: 1 / 3600,
      label: 'published',
    },
  ]
})
rows.push({ what: 'spiral angle, rad', printed: 0.235619, computed: curve.spiralRad, within: 5e-7, label: 'published' })

test('the table of a spiral', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(16)
  expect(blindRows(rows)).toEqual([])
})
