import { describe, expect, it } from 'vitest'
import { overhangOn } from '../../src/room/overhang.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * MOROP NEM 103 (2016), clearance on curves: by how much the clear room of NEM 102 is wider on either side of a curve, whole
 * millimetres, for coaches of groups A, B and C (pivots 14.0, 17.2 and 19.5 m apart). Published. NEM 102 itself leaves room
 * for a part of the overhang, which is the same for all groups, so what is compared is how much more one group needs than
 * another on the same curve: the difference of their overhangs at mid-car. Both numbers are rounded, one of them (B of size I at
 * 1200 mm) more than half a millimetre, so 1.4 mm is allowed.
 */
const PIVOTS_M = { A: 14, B: 17.2, C: 19.5 } as const
/** Scales of the sizes by NEM 010. */
const SIZES = {
  'size 0': {
    scale: 45,
    table: { 900: [12, 19, 25], 1200: [8, 14, 18], 1600: [6, 9, 13], 2000: [4, 7, 9], 2500: [3, 5, 7] },
  },
  'size I': {
    scale: 32,
    table: { 1200: [16, 25, 34], 1400: [13, 21, 28], 1600: [11, 18, 24], 2000: [7, 13, 18], 3000: [3, 7, 10] },
  },
  'size II': {
    scale: 22.5,
    table: { 2000: [20, 32, 42], 2500: [15, 24, 32], 3000: [11, 19, 26], 3500: [9, 16, 21], 4000: [6, 13, 18] },
  },
} as const

const insideMm = (radiusMm: number, pivotsM: number, scale: number) => {
  const truckCentresMm = (pivotsM * 1000) / scale
  return overhangOn(radiusMm, { lengthMm: 1.4 * truckCentresMm, truckCentresMm, widthMm: 100 }).insideMm
}

const rows: Row[] = Object.entries(SIZES).flatMap(([size, { scale, table }]) =>
  Object.entries(table).flatMap(([radius, [a, b, c]]): Row[] => {
    const of = (group: keyof typeof PIVOTS_M) => insideMm(Number(radius), PIVOTS_M[group], scale)
    const what = `${size} at ${radius} mm`
    return [
      { what: `B more than A, ${what}`, printed: b - a, computed: of('B') - of('A'), within: 1.4, label: 'published' },
      { what: `C more than B, ${what}`, printed: c - b, computed: of('C') - of('B'), within: 1.4, label: 'published' },
    ]
  }),
)

describe('NEM 103', () => {
  it('differs from group to group as their overhangs do', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 30 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(30)
    expect(blindRows(rows)).toEqual([])
  })
})
