import { describe, expect, it } from 'vitest'
import { blindRows, misses, type Row } from './rows.ts'
import { degrees, feet, turnout } from './turnouts.ts'

/**
 * Portfolio of Trackwork Plans of the American railways' engineering association, plan 910: turnouts with straight split
 * switches on 4 ft 8½ in. All of it from memory: switch rail (ft) and switch angle, toe length less the distance of the
 * theoretical from the ½-in point (in), actual lead to the ½-in point (ft), radius of the centre line (ft). Heel spread
 * 6¼ in throughout. The theoretical lead is N/24 ft shorter. The portfolio adjusted closures to practical rail lengths, with
 * short straights at their ends, so most rows are within 1½ % of the lead and 2 % of the radius; three were not adjusted.
 */
const SWITCHES = new Map([
  [16.5, degrees(1, 46, 22)],
  [22, degrees(1, 19, 46)],
  [30, degrees(0, 58, 30)],
])

const PLAN_910 = [
  { number: 7, rail: 16.5, toe: 53, lead: 62 + 1 / 12, radius: 365.59, exact: true },
  { number: 8, rail: 16.5, toe: 57, lead: 68, radius: 487.28 },
  { number: 9, rail: 16.5, toe: 72, lead: 72 + 3.5 / 12, radius: 615.12 },
  { number: 10, rail: 16.5, toe: 72, lead: 78.75, radius: 779.39 },
  { number: 11, rail: 22, toe: 78.5, lead: 91 + 10.25 / 12, radius: 927.27, exact: true },
  { number: 12, rail: 22, toe: 87.5, lead: 96 + 8 / 12, radius: 1104.63 },
  { number: 14, rail: 22, toe: 97, lead: 107 + 0.75 / 12, radius: 1581.2, exact: true },
  { number: 15, rail: 30, toe: 105, lead: 126 + 4.5 / 12, radius: 1720.77 },
  { number: 16, rail: 30, toe: 105, lead: 131 + 4 / 12, radius: 2007.12 },
  { number: 18, rail: 30, toe: 123.5, lead: 140 + 11.5 / 12, radius: 2578.79 },
  { number: 20, rail: 30, toe: 122.5, lead: 151 + 11.5 / 12, radius: 3289.29 },
]

const rows = PLAN_910.flatMap(({ number, rail, toe, lead, radius, exact = false }): Row[] => {
  const { leadMm, closureRadiusMm } = turnout({
    gauge: 1435.1,
    number,
    heelSpread: 6.25 * 25.4,
    heelAngle: SWITCHES.get(rail)!,
    pointLength: rail * 304.8,
    toeLength: toe * 25.4,
  })
  return [
    {
      what: `No. ${number}, lead to the ½-in point, ft`,
      printed: lead,
      computed: feet(leadMm) + number / 24,
      within: lead * (exact ? 0.0015 : 0.015),
      label: 'from memory',
    },
    {
      what: `No. ${number}, radius, ft`,
      printed: radius,
      computed: feet(closureRadiusMm),
      within: radius * (exact ? 0.0035 : 0.02),
      label: 'from memory',
    },
  ]
})

describe('turnouts of the American portfolio of trackwork plans', () => {
  it('agree within what their closures were adjusted', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 22 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(22)
    expect(blindRows(rows)).toEqual([])
  })
})
