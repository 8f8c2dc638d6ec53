import { describe, expect, it } from 'vitest'
import { type VerticalCurveGiven, verticalCurve } from '../../src/track/vertical-curve.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Equal-tangent vertical curves in feet and stations of 100 ft:
 * - a summit set out by a surveyor: PVC 0+00 at 1067.29, +1.34 % to −1.77 % over 500 ft (elevations to 0.01 or 0.001 ft);
 * - J. Mahun, Open Access Surveying Library, vertical curves, solutions of self-study problems 2 to 4 (to 0.001 ft, grades
 *   to 0.01 %).
 * In program units the foot here is "one millimetre": the formulas have no scale.
 */
const SUMMIT: VerticalCurveGiven = {
  fromMm: 0,
  elevationMm: 1067.29,
  lengthMm: 500,
  gradeInPct: 1.34,
  gradeOutPct: -1.77,
}
const CREST: VerticalCurveGiven = {
  fromMm: 5400,
  elevationMm: 1312.5,
  lengthMm: 500,
  gradeInPct: 5,
  gradeOutPct: -3.5,
}
const SAG: VerticalCurveGiven = { fromMm: 8800, elevationMm: 1220, lengthMm: 425, gradeInPct: -4, gradeOutPct: 2.75 }
const FLAT_CREST: VerticalCurveGiven = { fromMm: 3200, elevationMm: 912, lengthMm: 600, gradeInPct: 2, gradeOutPct: -1 }

const at = (curve: VerticalCurveGiven, station: number) => verticalCurve(curve, [station]).points[0]!
const level = (curve: VerticalCurveGiven) => verticalCurve(curve, []).turning!

const elevations = (name: string, curve: VerticalCurveGiven, printed: Readonly<Record<number, number>>): Row[] =>
  Object.entries(printed).map(([station, elevation]) => ({
    what: `${name} at ${station}`,
    printed: elevation,
    computed: at(curve, Number(station)).elevationMm,
    within: Number.isInteger(elevation * 100) ? 0.005 : 0.0005,
    label: 'published',
  }))
const grades = (name: string, curve: VerticalCurveGiven, printed: Readonly<Record<number, number>>): Row[] =>
  Object.entries(printed).map(([station, grade]) => ({
    what: `grade of ${name} at ${station}`,
    printed: grade,
    computed: at(curve, Number(station)).gradePct,
    within: 0.005,
    label: 'published',
  }))
const turning = (name: string, curve: VerticalCurveGiven, station: number, elevation: number): Row[] => [
  {
    what: `level point of ${name}`,
    printed: station,
    computed: level(curve).atMm,
    within: 0.005,
    label: 'published',
  },
  {
    what: `its elevation`,
    printed: elevation,
    computed: level(curve).elevationMm,
    within: 0.0005,
    label: 'published',
  },
]

const rows: Row[] = [
  ...elevations('summit', SUMMIT, { 100: 1068.32, 200: 1068.726, 300: 1068.511, 400: 1067.674, 500: 1066.215 }),
  ...turning('summit', SUMMIT, 215.43, 1068.733),
  {
    what: 'distance of the summit from its PVI',
    printed: 1.94,
    computed: verticalCurve(SUMMIT, []).externalMm,
    within: 0.005,
    label: 'published',
  },
  ...elevations('crest', CREST, { 5500: 1316.65, 5600: 1319.1, 5700: 1319.85, 5800: 1318.9, 5900: 1316.25 }),
  ...grades('crest', CREST, { 5400: 5, 5500: 3.3, 5600: 1.6, 5700: -0.1, 5800: -1.8, 5900: -3.5 }),
  ...elevations('sag', SAG, { 8900: 1216.794, 9000: 1215.176, 9100: 1215.147, 9200: 1216.706, 9225: 1217.344 }),
  ...grades('sag', SAG, { 8900: -2.41, 9000: -0.82, 9100: 0.76, 9200: 2.35 }),
  ...turning('sag', SAG, 9051.852, 1214.963),
  ...elevations('flat crest', FLAT_CREST, {
    3300: 913.75,
    3400: 915,
    3500: 915.75,
    3600: 916,
    3700: 915.75,
    3800: 915,
  }),
  ...turning('flat crest', FLAT_CREST, 3600, 916),
]

describe('vertical curves of textbooks', () => {
  it('agree to the printed digit', () => {
    // Printed as 1216.147; with the elevations beside it and its own grade it can only be 1215.147.
    expect(misses(rows)).toEqual([])
  })

  it('compares all 38 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(38)
    expect(blindRows(rows)).toEqual([])
  })
})
