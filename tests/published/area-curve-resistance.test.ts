import { expect, test } from 'vitest'
import { curveResistanceMm, measuredCurveResistanceMm } from '../../src/hauling/resistance.ts'
import { asked, evenHill, radiusOfDegreeMm } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * American Railway Engineering Association: curves take 0.8 lb for each short ton and degree of curve, found by many tests
 * of wide scatter (as quoted in a mailing list of railway historians in 2005). It goes with curvature, so one measured
 * curve gives all others: here the one of 6° from the others. The formula of the program, with wheelbases of 6 ft, is
 * compared with it within its scatter.
 */
const SIX = { extraPct: (100 * 0.8 * 6) / 2000, radiusMm: radiusOfDegreeMm(6) }
const lbPerTon = (degrees: number) =>
  asked(evenHill(0, radiusOfDegreeMm(degrees)), [
    { weightN: 2000, rolling: 0, curveMm: measuredCurveResistanceMm(SIX) },
  ])

const rows: Row[] = [1, 2, 5, 10, 16].map((degrees) => ({
  what: `curve resistance of a ton on ${degrees}°, lb`,
  printed: 0.8 * degrees,
  computed: lbPerTon(degrees),
  within: 1e-6,
  label: 'published',
}))

test('0.8 lb a ton and degree is one length for all curves', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(5)
  expect(blindRows(rows)).toEqual([])
})

test('the formula by gauge and wheelbase comes to 0.95 of it at standard gauge', () => {
  const ratio = curveResistanceMm(1435, 6 * 304.8) / measuredCurveResistanceMm(SIX)
  // Derived: 0.35·(0.72·1435 + 0.47·1829)/698.5.
  expect(ratio).toBeCloseTo(0.9484, 3)
})
