import { expect, test } from 'vitest'
import { type VerticalCurveGiven, verticalCurve } from '../../src/track/vertical-curve.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * A summit of a lecture on geometric design ("Example About VC Elevations", scribd.com document 410115058): +3 % to −4 % over
 * 2170 m, the grades meet at station 345+60 and 250 m. Elevations to 0.01 m at every station of 100 m, and the summit.
 */
const CREST: VerticalCurveGiven = {
  fromMm: 33_475,
  elevationMm: 217.45,
  lengthMm: 2170,
  gradeInPct: 3,
  gradeOutPct: -4,
}

const PRINTED: Readonly<Record<number, number>> = {
  33475: 217.45,
  33500: 218.19,
  33600: 220.95,
  33700: 223.38,
  33800: 225.5,
  33900: 227.29,
  34000: 228.75,
  34100: 229.9,
  34200: 230.72,
  34300: 231.22,
  34400: 231.4,
  34500: 231.25,
  34600: 230.79,
  34700: 230,
  34800: 228.88,
  34900: 227.45,
  35000: 225.69,
  35100: 223.61,
  35200: 221.21,
  35300: 218.48,
  35400: 215.43,
  35500: 212.06,
  35600: 208.37,
  35645: 206.6,
}

const rows: Row[] = [
  ...Object.entries(PRINTED).map(
    ([station, elevation]): Row => ({
      what: `elevation at ${station}`,
      printed: elevation,
      computed: verticalCurve(CREST, [Number(station)]).points[0]!.elevationMm,
      within: 0.005,
      label: 'published',
    }),
  ),
  {
    what: 'summit from the start of the curve',
    printed: 930,
    computed: verticalCurve(CREST, []).turning!.atMm - CREST.fromMm,
    within: 0.5,
    label: 'published',
  },
  {
    what: 'its elevation',
    printed: 231.4,
    computed: verticalCurve(CREST, []).turning!.elevationMm,
    within: 0.005,
    label: 'published',
  },
]

test('a long summit, station by station', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(26)
  expect(blindRows(rows)).toEqual([])
})
