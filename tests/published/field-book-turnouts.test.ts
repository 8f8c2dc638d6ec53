import { describe, expect, it } from 'vitest'
import { blindRows, misses, type Row } from './rows.ts'
import { degrees, feet, turnout } from './turnouts.ts'

/**
 * A nineteenth-century engineer's field book (public domain, scan at books.google.com/books?id=Tnw1AAAAMAAJ, p. 132, rules
 * 11 to 16): switch rail 18 ft, throw 5 in = 0.42 ft, frog angle 5°44', gauge 4.71 ft. It gives the switch angle 1°20', the
 * radius of the outer rail (g − d)/(cos S − cos F) = 907 ft, and the lead from the heel (g − d)/sin ½(F + S) = 69.64 ft,
 * measured along the chord. The book rounds the divisors to three figures, which is what is allowed here.
 */
const FOOT = 304.8
const field = turnout({
  gauge: 4.71 * FOOT,
  frogAngle: degrees(5, 44),
  heelSpread: 0.42 * FOOT,
  pointLength: 18 * FOOT,
  form: 'straight-frog',
})
const chordMm = 2 * field.outerGaugeRadiusMm * Math.sin(((field.frogAngleDeg - field.heelAngleDeg) * Math.PI) / 360)

/**
 * Turnouts with stub switches on 4 ft 8½ in (g = 4.7083 ft), curve through the frog: radius 2gN² and lead 2gN, as the
 * field books tabulate them (feet, from memory, one unit of the digit shown).
 */
const STUB = [
  { number: 4, lead: 37.67, radius: 150.7 },
  { number: 5, lead: 47.08, radius: 235.4 },
  { number: 6, lead: 56.5, radius: 339.0 },
  { number: 7, lead: 65.92, radius: 461.4 },
  { number: 8, lead: 75.33, radius: 602.7 },
  { number: 9, lead: 84.75, radius: 762.8 },
  { number: 10, lead: 94.17, radius: 941.7 },
  { number: 12, lead: 113.0, radius: 1356.0 },
]

const rows: Row[] = [
  {
    what: 'switch angle',
    printed: degrees(1, 20),
    computed: field.heelAngleDeg,
    within: 0.5 / 60,
    label: 'published',
  },
  {
    what: 'radius of the outer rail, ft',
    printed: 907,
    computed: feet(field.outerGaugeRadiusMm),
    within: 2,
    label: 'published',
  },
  { what: 'chord from heel to frog, ft', printed: 69.64, computed: feet(chordMm), within: 0.1, label: 'published' },
  ...STUB.flatMap(({ number, lead, radius }): Row[] => {
    const { leadMm, closureRadiusMm } = turnout({ gauge: 1435.1, number, form: 'curved-frog' })
    return [
      { what: `No. ${number}, lead`, printed: lead, computed: feet(leadMm), within: 0.01, label: 'from memory' },
      {
        what: `No. ${number}, radius`,
        printed: radius,
        computed: feet(closureRadiusMm),
        within: 0.1,
        label: 'from memory',
      },
    ]
  }),
]

describe('turnouts of field books', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 19 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(19)
    expect(blindRows(rows)).toEqual([])
  })
})
