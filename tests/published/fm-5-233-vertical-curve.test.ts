import { expect, test } from 'vitest'
import { type VerticalCurveGiven, verticalCurve } from '../../src/track/vertical-curve.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * US Army FM 5-233, Construction Surveying, chapter 3, the vertical curve worked there, as remembered: +9 % to −7 % over
 * 400 ft, which meet at station 30+00 and 239.12 ft. The offset in the middle is (g2 − g1)·L/8 = −8.00 ft with L in stations;
 * the turning point is L·g1/(g1 − g2) = 2.25 stations from the start.
 */
const CURVE: VerticalCurveGiven = { fromMm: 2800, elevationMm: 221.12, lengthMm: 400, gradeInPct: 9, gradeOutPct: -7 }
const at = (station: number) => verticalCurve(CURVE, [station]).points[0]!.elevationMm

const rows: Row[] = [
  {
    what: 'offset in the middle, ft',
    printed: 8,
    computed: verticalCurve(CURVE, []).externalMm,
    within: 0.005,
    label: 'from memory',
  },
  { what: 'elevation of the middle', printed: 231.12, computed: at(3000), within: 0.005, label: 'from memory' },
  { what: 'elevation of the end', printed: 225.12, computed: at(3200), within: 0.005, label: 'from memory' },
  {
    what: 'turning point',
    printed: 3025,
    computed: verticalCurve(CURVE, []).turning!.atMm,
    within: 0.005,
    label: 'from memory',
  },
  {
    what: 'its elevation',
    printed: 231.245,
    computed: verticalCurve(CURVE, []).turning!.elevationMm,
    within: 0.0005,
    label: 'from memory',
  },
]

test('the vertical curve of the manual', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(5)
  expect(blindRows(rows)).toEqual([])
})
