import { describe, expect, it } from 'vitest'
import { overhangOn } from '../../src/room/overhang.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Chandra and Agarwal, Railway Engineering, extra clearance on curves: inside C²/8R at the middle of the car, outside
 * (L² − C²)/8R at its ends. These are first terms of a series; the next ones, C⁴/128R³ and (L² − C²)²/128R³ − …, are the
 * allowance below. The exact corner, and the numbers for R 1200, are worked by hand from √((d + W/2)² + (L/2)²) − R − W/2.
 */
const cars: readonly { readonly R: number; readonly C: number; readonly L: number; readonly W: number }[] = [
  // A passenger car of the Indian broad gauge on its sharpest curve, mm: 14,785 between bogies, 21,340 long, 3,250 wide.
  { R: 175_000, C: 14_785, L: 21_340, W: 3250 },
  { R: 1200, C: 300, L: 450, W: 110 },
  { R: 2438.4, C: 432, L: 610, W: 110 },
  { R: 6096, C: 432, L: 610, W: 110 },
]

const rows: Row[] = cars.flatMap(({ R, C, L, W }): Row[] => {
  const overhang = overhangOn(R, { lengthMm: L, truckCentresMm: C, widthMm: W })
  return [
    {
      what: `inside on ${R}`,
      printed: C ** 2 / (8 * R),
      computed: overhang.insideMm,
      within: (1.1 * C ** 4) / (128 * R ** 3),
      label: 'published',
    },
    {
      what: `ends on ${R}`,
      printed: (L ** 2 - C ** 2) / (8 * R),
      computed: overhang.endMm,
      within: (1.1 * L ** 4) / (128 * R ** 3),
      label: 'published',
    },
  ]
})

const garden = overhangOn(1200, { lengthMm: 450, truckCentresMm: 300, widthMm: 110 })
rows.push(
  { what: 'inside', printed: 9.412, computed: garden.insideMm, within: 5e-4, label: 'by hand' },
  { what: 'corner', printed: 10.747, computed: garden.outsideCornerMm, within: 5e-4, label: 'by hand' },
)

describe('overhang of cars on curves', () => {
  it('agrees with the textbook to the next term of its series', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 10 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(10)
    expect(blindRows(rows)).toEqual([])
  })
})
