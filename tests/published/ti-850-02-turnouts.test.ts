import { describe, expect, it } from 'vitest'
import { blindRows, misses, type Row } from './rows.ts'
import { degrees, feet, turnout } from './turnouts.ts'

/**
 * US Army TI 850-02 (2000), table 6-12: curvature of turnouts by their numbers, degrees by 100-ft chord. They come from
 * closures adjusted to practical rail lengths, so the formula with the usual parts (switch rail 16 ft 6 in, heel spread
 * 6¼ in of its figure 6-28, switch angle 1°46'22", toes to the theoretical point; the angle and the toes from memory) is
 * only within 3 % of them.
 */
const TABLE_6_12 = [
  { number: 8, toe: 57, degree: 11.8 },
  { number: 9, toe: 72, degree: 9.3 },
  { number: 10, toe: 72, degree: 7.4 },
]

/** Eq. 6-12: S = arcsin((h − t)/a), heel spread 6.25 in and thickness of the point 0.25 in, a 16 ft 6 in. */
const EQ_6_12 = (Math.asin((6.25 - 0.25) / (16.5 * 12)) * 180) / Math.PI

const parts = { gauge: 1435.1, heelSpread: 6.25 * 25.4, heelAngle: degrees(1, 46, 22), pointLength: 16.5 * 304.8 }

const rows = TABLE_6_12.flatMap(({ number, toe, degree }): Row[] => {
  const given = turnout({ ...parts, number, toeLength: toe * 25.4 })
  const { closureRadiusMm, outerGaugeRadiusMm, frogAngleDeg, heelAngleDeg, curvedClosureMm, toeSpreadMm } = given
  const computed = (2 * Math.asin(50 / feet(closureRadiusMm)) * 180) / Math.PI
  const [half, mean] = [(frogAngleDeg - heelAngleDeg) / 2, (frogAngleDeg + heelAngleDeg) / 2]
  const sin = (deg: number) => Math.sin((deg * Math.PI) / 180)
  // Eq. 6-13 and 6-14: C = q/sin ½(F + S), q = g − e − h with the toe spread e; R = C/(2 sin ½(F − S)).
  const chord = (parts.gauge - toeSpreadMm! - parts.heelSpread) / sin(mean)
  return [
    {
      what: `No. ${number}, degrees of curve`,
      printed: degree,
      computed,
      within: 0.03 * degree,
      label: 'published',
    },
    {
      what: `No. ${number}, radius by eq. 6-13 and 6-14`,
      printed: chord / (2 * sin(half)),
      computed: outerGaugeRadiusMm,
      // The toe spread along the chord between the rails, not square to one of them.
      within: 0.002 * outerGaugeRadiusMm,
      label: 'closed form',
    },
    {
      what: `No. ${number}, curved closure`,
      printed: (chord / (2 * sin(half))) * ((2 * half * Math.PI) / 180),
      computed: curvedClosureMm!,
      within: 0.002 * curvedClosureMm!,
      label: 'closed form',
    },
  ]
})

rows.push({
  what: 'switch angle by eq. 6-12',
  printed: EQ_6_12,
  computed: degrees(1, 46, 22),
  // As printed from memory; the equation gives 1°44'11" for a point of ¼ in, and 1°48'32" for none.
  within: 0.045,
  label: 'published',
})

describe('turnouts of the army', () => {
  it('agree within what their closures were adjusted', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 10 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(10)
    expect(blindRows(rows)).toEqual([])
  })
})
