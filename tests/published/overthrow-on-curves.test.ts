import { expect, test } from 'vitest'
import { overhangOn } from '../../src/room/overhang.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * Extra clearance on curves at 1676 mm gauge (Indian Railways, Schedule of Dimensions, as taught with Chandra and Agarwal,
 * Railway Engineering; from memory): a coach of 21 340 mm on bogies 14 785 mm apart reaches 27 330/R mm to the inside at its
 * middle and 29 600/R mm to the outside at its ends, R in metres. Printed to four digits and by the approximations C²/8R and
 * (L² − C²)/8R, so at 175 m, the sharpest main line, the exact figures are off by up to 0.2 %.
 */
const COACH = { lengthMm: 21_340, truckCentresMm: 14_785, widthMm: 3250 }

const rows: Row[] = [175, 350, 875, 1750].flatMap((radiusM): Row[] => {
  const { insideMm, endMm } = overhangOn(radiusM * 1000, COACH)
  const row = (what: string, perMetre: number, computed: number): Row => ({
    what: `${what} at ${radiusM} m, mm`,
    printed: perMetre / radiusM,
    computed,
    within: (0.002 * perMetre) / radiusM,
    label: 'from memory',
  })
  return [row('overthrow', 27_330, insideMm), row('end throw', 29_600, endMm)]
})

test('the throws of a coach', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(8)
  expect(blindRows(rows)).toEqual([])
})
