import { expect, test } from 'vitest'
import { measuredCurveResistanceMm } from '../../src/hauling/resistance.ts'
import { asked, evenHill, radiusOfDegreeMm } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * W. L. Webb, Economics of Railroad Construction, §180: a grade is eased by 0.04 % for each degree of curve, so a curve of
 * 10° by 0.4 %. A train then asks for as much on the curve as on the straight. Webb warns that this overstates on very
 * sharp curves; at garden radii it would be half the weight of the train (derived).
 */
const RULE = { extraPct: 0.04, radiusMm: radiusOfDegreeMm(1) }
const curveMm = measuredCurveResistanceMm(RULE)
const block = { weightN: 100, rolling: 0, curveMm }

const rows: Row[] = [
  ...[5, 10, 15].map(
    (degrees): Row => ({
      what: `grade on a curve of ${degrees}° that asks for as much as 1.5 % on the straight`,
      printed: 1.5 - 0.04 * degrees,
      computed: 1.5 - (asked(evenHill(0, radiusOfDegreeMm(degrees)), [block]) / 100) * 100,
      within: 1e-6,
      label: 'published',
    }),
  ),
  {
    what: 'the same rule at 1.2 m radius, %',
    printed: 58,
    computed: (100 * curveMm) / 1200,
    within: 0.5,
    label: 'derived',
  },
]

test('compensation for curves', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(4)
  expect(blindRows(rows)).toEqual([])
})
