import { expect, test } from 'vitest'
import { measuredCurveResistanceMm } from '../../src/hauling/resistance.ts'
import { WEATHER_SHARE } from '../../src/hauling/train.ts'
import { asked, evenHill, radiusOfDegreeMm } from './hills.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * US Army Transportation School, TR 0603: §2.7 and table II (rolling resistance 7 lb a short ton on fair to poor track;
 * grade resistance 20 lb a ton for each percent), and the worked tonnage of §2.10: an engine of 120 tons with 36,000 lb of
 * continuous tractive effort, on a ruling grade of 1.5 % with a curve of 10°, 0.8 lb a ton for each degree, 80 % in bad
 * weather. The inputs are the manual's; results that it does not print are labelled derived.
 */
const TON_LB = 2000
const RADIUS_MM = radiusOfDegreeMm(10)
const CURVE_MM = measuredCurveResistanceMm({ extraPct: (100 * 0.8 * 10) / TON_LB, radiusMm: RADIUS_MM })
const ton = (rollingLb: number, curveMm = 0) => ({ weightN: TON_LB, rolling: rollingLb / TON_LB, curveMm })

const drawbarLb = 36_000 - asked(evenHill(0.01), [{ ...ton(0), weightN: 120 * TON_LB }])
const resistanceLb = asked(evenHill(0.015, RADIUS_MM), [ton(7, CURVE_MM)])

const rows: Row[] = [
  {
    what: 'rolling resistance of a ton, lb',
    printed: 7,
    computed: asked(evenHill(0), [ton(7)]),
    within: 1e-6,
    label: 'published',
  },
  {
    what: 'grade resistance of a ton on 1 %, lb',
    printed: 20,
    computed: asked(evenHill(0.01), [ton(0)]),
    within: 1e-6,
    label: 'published',
  },
  { what: 'and on 1.5 %', printed: 30, computed: asked(evenHill(0.015), [ton(0)]), within: 1e-6, label: 'published' },
  {
    what: 'curve resistance of a ton on 10°, lb',
    printed: 8,
    computed: asked(evenHill(0, RADIUS_MM), [ton(0, CURVE_MM)]),
    within: 1e-6,
    label: 'published',
  },
  { what: 'drawbar pull, lb', printed: 33_600, computed: drawbarLb, within: 1e-3, label: 'derived' },
  { what: 'resistance of a ton, lb', printed: 45, computed: resistanceLb, within: 1e-6, label: 'derived' },
  {
    what: 'tons behind the engine',
    printed: 597.3,
    computed: (drawbarLb * WEATHER_SHARE) / resistanceLb,
    within: 0.05,
    label: 'derived',
  },
]

test('the tonnage of the manual comes out of the same forces', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(7)
  expect(blindRows(rows)).toEqual([])
})
