import { expect, test } from 'vitest'
import { overhangOn } from '../../src/room/overhang.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * German regulations for railways (EBO 1967, annex 2 to § 9, amended 1991): how much wider the room on the inside of curves
 * under 250 m has to be than at 250 m, mm, rounded up to 5. Published. The longest vehicles that it counts on have pivots 20 m
 * apart (named in annex 8 of a state's rules for sidings), whose overhang at mid-car is 50/R m. Below 150 m the table is for
 * vehicles that not all lines take, and is left out.
 */
const insideMm = (radiusM: number) =>
  overhangOn(radiusM * 1000, { lengthMm: 27_000, truckCentresMm: 20_000, widthMm: 2800 }).insideMm
const more = (radiusM: number) => insideMm(radiusM) - insideMm(250)

const TABLE = [
  [225, 25],
  [200, 50],
  [190, 65],
  [180, 80],
  [150, 135],
] as const

const rows: Row[] = TABLE.map(([radiusM, printed]) => ({
  what: `wider on the inside at ${radiusM} m, mm`,
  // Rounded up: the middle of what comes to the printed number. At 200 m 50/R makes it 50 exactly, the circle 50.08.
  printed: printed - 2.5,
  computed: more(radiusM),
  within: 2.6,
  label: 'published',
}))

test('room on the inside of curves', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(5)
  expect(blindRows(rows)).toEqual([])
})
