import { describe, expect, it } from 'vitest'
import { blindRows, misses, type Row } from './rows.ts'
import { degrees, feet, turnout } from './turnouts.ts'

/**
 * Stub switches on 4 ft 8½ in, table of W. H. Searles, *Field Engineering*: frog number, frog angle, radius of the centre
 * line (ft) and degree of the lead curve over a chord of 100 ft. From memory, so to 3″ of the frog angle and 10″ of the
 * degree (in that table the gauge is 4.708 ft).
 */
const TABLE = [
  { number: 4, frog: degrees(14, 15, 0), radius: 150.66, degree: degrees(38, 45, 57) },
  { number: 5, frog: degrees(11, 25, 16), radius: 235.42, degree: degrees(24, 31, 36) },
  { number: 6, frog: degrees(9, 31, 38), radius: 339.0, degree: degrees(16, 57, 52) },
  { number: 7, frog: degrees(8, 10, 16), radius: 461.42, degree: degrees(12, 26, 33) },
  { number: 8, frog: degrees(7, 9, 10), radius: 602.67, degree: degrees(9, 31, 7) },
  { number: 9, frog: degrees(6, 21, 35), radius: 762.75, degree: degrees(7, 31, 4) },
  { number: 10, frog: degrees(5, 43, 29), radius: 941.67, degree: degrees(6, 5, 16) },
  { number: 11, frog: degrees(5, 12, 18), radius: 1139.42, degree: degrees(5, 1, 50) },
  { number: 12, frog: degrees(4, 46, 19), radius: 1356.0, degree: degrees(4, 13, 36) },
]

const rows: Row[] = TABLE.flatMap(({ number, frog, radius, degree }): Row[] => {
  const { frogAngleDeg, closureRadiusMm } = turnout({ gauge: (4 + 8.5 / 12) * 304.8, number, form: 'curved-frog' })
  const computed = (2 * Math.asin(50 / feet(closureRadiusMm)) * 180) / Math.PI
  const row = (what: string, printed: number, value: number, within: number): Row => ({
    what: `No. ${number}, ${what}`,
    printed,
    computed: value,
    within,
    label: 'from memory',
  })
  return [
    row('frog angle, degrees', frog, frogAngleDeg, 3 / 3600),
    row('radius, ft', radius, feet(closureRadiusMm), 0.01),
    row('degree of the lead curve', degree, computed, 10 / 3600),
  ]
})

describe('stub switches of a field book', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 27 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(27)
    expect(blindRows(rows)).toEqual([])
  })
})
