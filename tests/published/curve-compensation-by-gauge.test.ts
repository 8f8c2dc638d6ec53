import { expect, test } from 'vitest'
import { curveResistanceMm, measuredCurveResistanceMm } from '../../src/hauling/resistance.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * S. Chandra and M. M. Agarwal, Railway Engineering: curve resistance 0.0004·W·D at 1676 mm gauge (also as a compensation of
 * 0.04 % a degree), 0.0003·W·D at 1000 mm and 0.0002·W·D at 762 mm, with R = 1750/D m (from memory but for the first). In
 * gauges these are 0.42, 0.53 and 0.46: the resistance goes with the gauge, as the formula of the program has it. How far
 * the formula reaches is derived: trucks of 1 to 2 gauges.
 */
const RULES = [
  { gaugeMm: 1676, share: 0.0004, printedMm: 700 },
  { gaugeMm: 1000, share: 0.0003, printedMm: 525 },
  { gaugeMm: 762, share: 0.0002, printedMm: 350 },
]
const lengthMm = (share: number, degrees: number) =>
  measuredCurveResistanceMm({ extraPct: 100 * share * degrees, radiusMm: 1_750_000 / degrees })

const rows: Row[] = RULES.flatMap(({ gaugeMm, share, printedMm }) =>
  [1, 10].map(
    (degrees): Row => ({
      what: `curve resistance at ${gaugeMm} mm from a curve of ${degrees}°, mm`,
      printed: printedMm,
      computed: lengthMm(share, degrees),
      within: 1e-6,
      label: 'from memory',
    }),
  ),
)

test('curve resistance is one length for each gauge', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(6)
  expect(blindRows(rows)).toEqual([])
})

test('and about the same share of it, as with the formula', () => {
  const shares = RULES.map(({ gaugeMm, printedMm }) => printedMm / gaugeMm)
  const formula = [1, 4 / 3, 2].map((wheelbase) => curveResistanceMm(45, 45 * wheelbase) / 45)
  for (const share of shares) {
    expect(share).toBeGreaterThan(formula[0]! - 0.01)
    expect(share).toBeLessThan(formula[2]!)
  }
  expect(formula[1]).toBeGreaterThan(Math.min(...shares))
  expect(formula[1]).toBeLessThan(Math.max(...shares))
})
