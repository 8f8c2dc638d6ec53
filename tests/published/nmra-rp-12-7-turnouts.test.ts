import { describe, expect, it } from 'vitest'
import { closureOffsets } from '../../src/track/turnout/closure-offsets.ts'
import { turnoutOf } from '../../src/track/turnout/turnout.ts'
import { blindRows, misses, type Row } from './rows.ts'
import { degrees, inches, turnout } from './turnouts.ts'

/**
 * NMRA Recommended Practice RP-12.7, turnouts for N scale, the rows of its table for No. 4 to 7 (inches; angles to the
 * minute). Frogs by N = ½·cot(F/2). Its switch rails are curved and end at the heel with the angle of row 5, where the
 * closure begins as behind straight ones. Row 22 is printed to 0.001; for No. 7 one unit more is allowed, which
 * the length in row 20, itself rounded, does not account for (toe/N gives 0.0616, the chord between the rails 0.0614).
 */
const TABLE = [
  { number: 4, angle: degrees(14, 15), toe: 0.3, spread: 0.074, rail: 1.088, straight: 1.269, lead: 2.657 },
  { number: 5, angle: degrees(11, 25), toe: 0.337, spread: 0.067, rail: 1.088, straight: 1.546, lead: 2.971 },
  { number: 6, angle: degrees(9, 32), toe: 0.375, spread: 0.062, rail: 1.088, straight: 1.793, lead: 3.256 },
  { number: 7, angle: degrees(8, 10), toe: 0.431, spread: 0.062, rail: 1.744, straight: 2.339, lead: 4.514 },
]

const rows = TABLE.flatMap(({ number, angle, toe, spread, rail, straight, lead }): Row[] => {
  const { frogAngleDeg, toeSpreadMm } = turnout({ gauge: 9, number, toeLength: toe * 25.4 })
  const within = number === 7 ? 1e-3 : 5e-4
  return [
    { what: `No. ${number}, frog angle`, printed: angle, computed: frogAngleDeg, within: 0.5 / 60, label: 'published' },
    { what: `No. ${number}, toe spread`, printed: spread, computed: inches(toeSpreadMm!), within, label: 'published' },
    // Its rows 2, 9, 20 and 8: lead = switch rail + straight closure + toe, as here.
    { what: `No. ${number}, lead`, printed: lead, computed: rail + straight + toe, within: 5e-4, label: 'published' },
  ]
})

/**
 * Its closures, by heel spread (row 4) and heel angle (row 5), on 9 mm: straight length (row 9), length and radius of the
 * curved rail (rows 10 and 11; the table is worked out from angles to the minute, and its radii to a quarter of an inch), and the offsets of its gauge line (rows 12 to 17, rounded to ½ and whole
 * millimetres: the place along the rail of an offset is allowed 1 mm, and a chord between two quarter points).
 */
const CLOSURES = [
  { number: 4, heel: degrees(4, 50), toe: 0.3, rail: 1.088, straight: 1.269, curved: 1.3, radius: 8 },
  { number: 5, heel: degrees(4, 50), toe: 0.337, rail: 1.088, straight: 1.546, curved: 1.572, radius: 13.75 },
  { number: 6, heel: degrees(4, 50), toe: 0.375, rail: 1.088, straight: 1.793, curved: 1.816, radius: 22 },
  { number: 7, heel: degrees(2, 56), toe: 0.431, rail: 1.744, straight: 2.339, curved: 2.357, radius: 25.75 },
]

for (const { number, heel, toe, rail, straight, curved, radius } of CLOSURES) {
  const { outerGaugeRadiusMm, straightClosureMm, curvedClosureMm } = turnout({
    gauge: 9,
    number,
    heelSpread: 0.065 * 25.4,
    heelAngle: heel,
    pointLength: rail * 25.4,
    toeLength: toe * 25.4,
  })
  const row = (what: string, printed: number, mm: number, within: number) =>
    rows.push({ what: `No. ${number}, ${what}`, printed, computed: inches(mm), within, label: 'published' })
  row('straight closure', straight, straightClosureMm!, 0.0065)
  row('curved closure', curved, curvedClosureMm!, 0.004)
  row('radius of the closure', radius, outerGaugeRadiusMm, 0.25)
}

/** The places of these offsets, from the points along the stock rail, mm. */
const OFFSETS = [
  { number: 5, heel: degrees(4, 50), toe: 0.337, rail: 1.088, printed: [[4, 47.5]] },
  { number: 6, heel: degrees(4, 50), toe: 0.375, rail: 1.088, printed: [[4, 50.5]] },
  {
    number: 7,
    heel: degrees(2, 56),
    toe: 0.431,
    rail: 1.744,
    printed: [
      [3, 64],
      [5, 84],
    ],
  },
] as const

for (const { number, heel, toe, rail, printed } of OFFSETS) {
  const size = { hand: 'left', number, heelSpread: 1.65, heelAngle: heel, pointLength: rail * 25.4 } as const
  const made = turnoutOf({ ...size, toeLength: toe * 25.4 }, 9)
  const places = made.ok ? closureOffsets(made.turnout, 9) : []
  for (const [offsetMm, alongMm] of printed) {
    const next = places.findIndex((place) => place.offsetMm > offsetMm)
    const [a, b] = [places[next - 1]!, places[next]!]
    const share = (offsetMm - a.offsetMm) / (b.offsetMm - a.offsetMm)
    rows.push({
      what: `No. ${number}, where the closure is ${offsetMm} mm off`,
      printed: alongMm,
      computed: a.alongMm + share * (b.alongMm - a.alongMm),
      within: 1.1,
      label: 'published',
    })
  }
}

/** The same angles as printed to the second elsewhere, and those a 45 mm track has by hand. */
rows.push(
  {
    what: 'No. 8',
    printed: degrees(7, 9, 10),
    computed: turnout({ number: 8 }).frogAngleDeg,
    within: 0.5 / 3600,
    label: 'published',
  },
  {
    what: 'No. 10',
    printed: degrees(5, 43, 29),
    computed: turnout({ number: 10 }).frogAngleDeg,
    within: 0.5 / 3600,
    label: 'published',
  },
)

describe('turnouts by NMRA RP-12.7', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 30 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(30)
    expect(blindRows(rows)).toEqual([])
  })
})
