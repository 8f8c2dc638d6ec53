import { describe, expect, it } from 'vitest'
import { checkBend } from '../../src/bending/bend-check/check.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * 49 CFR 213.55, track alinement: on curves the mid-offset from a 62-ft chord may depart from uniform by no more than
 * 5, 3, 1¾, 1½ and ⅝ in in track of classes 1 to 5. The limits are published; the ordinates they are applied to are
 * those of US Army TM 5-628 ch. 12 (an inch a degree), derived exactly at R = 50/sin(D/2) ft.
 */
const MM_PER_INCH = 25.4
const CHORD_MM = 62 * 304.8
const DEPARTURES_IN = [5, 3, 1.75, 1.5, 0.625]

const radiusMm = (degree: number) => (50 * 304.8) / Math.sin((degree * Math.PI) / 360)

function stationsAt(degree: number, readingsMm: number[], allowedIn: number) {
  const result = checkBend({
    chordMm: CHORD_MM,
    radiusMm: radiusMm(degree),
    readingsMm,
    resolutionMm: allowedIn * MM_PER_INCH,
    tolerancePct: 0,
  })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.check.stations
}

describe('the 62-ft chord', () => {
  const rows = (
    [
      [1, 1.006],
      [5, 5.031],
      [10, 10.058],
      [16, 16.079],
    ] as const
  ).map(
    ([degree, printed]): Row => ({
      what: `${degree}°, inches`,
      printed,
      computed: stationsAt(degree, [0], 1)[0]!.targetOrdinateMm! / MM_PER_INCH,
      within: 0.0005,
      label: 'derived',
    }),
  )

  it('shows the degree of curve in inches', () => {
    expect(misses(rows)).toEqual([])
    expect(rows).toHaveLength(4)
    expect(blindRows(rows)).toEqual([])
  })

  it.each(DEPARTURES_IN.map((allowedIn, n) => [n + 1, allowedIn] as const))(
    'class %d: a departure of %d in passes, a hundredth of an inch more does not',
    (_, allowedIn) => {
      const uniform = stationsAt(6, [0], allowedIn)[0]!.targetOrdinateMm!
      const verdicts = [-0.01, 0, 0.01].flatMap((more) =>
        [-1, 1].map((side) => uniform + side * (allowedIn + more) * MM_PER_INCH),
      )
      expect(stationsAt(6, verdicts, allowedIn).map(({ verdict }) => verdict)).toEqual([
        'good',
        'good',
        'good',
        'good',
        'bend-more',
        'ease',
      ])
    },
  )
})
