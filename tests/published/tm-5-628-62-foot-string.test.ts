import { describe, expect, it } from 'vitest'
import { midOrdinateMm, radiusFromMidOrdinateMm } from '../../src/bending/ordinates.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * US Army TM 5-628 / AFR 91-44, *Railroad Track Standards*, chapter 12: on a 62-ft string an inch at the middle is a
 * degree of curve. The rule is published; how near it comes is derived with the exact ordinate at R = 50/sin(D/2) ft.
 */
const radiusIn = (degree: number) => (12 * 50) / Math.sin((degree * Math.PI) / 360)
const STRING_IN = 62 * 12

const rule: Row[] = [1, 2, 3, 4, 5, 6, 8, 10, 12, 16].map((degree) => ({
  what: `${degree}° by the rule of an inch a degree`,
  printed: degree,
  computed: midOrdinateMm(radiusIn(degree), STRING_IN)!,
  within: 0.01 * degree,
  label: 'published',
}))

const exact: Row[] = (
  [
    [1, 1.006],
    [5, 5.031],
    [10, 10.058],
    [16, 16.079],
  ] as const
).map(([degree, printed]) => ({
  what: `${degree}° exactly`,
  printed,
  computed: midOrdinateMm(radiusIn(degree), STRING_IN)!,
  within: 0.0005,
  label: 'derived',
}))

/** Read backwards: an inch on the string tells the radius of a one-degree curve, 5730 ft, within 1 %. */
const backwards: Row[] = [1, 2, 5, 10].map((inches) => ({
  what: `radius read from ${inches} in`,
  printed: radiusIn(inches),
  computed: radiusFromMidOrdinateMm(STRING_IN, inches)!,
  within: 0.01 * radiusIn(inches),
  label: 'published',
}))

describe('the 62-ft string', () => {
  const rows = [...rule, ...exact, ...backwards]

  it('shows an inch a degree, within 1 %', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 18 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(18)
    expect(blindRows(rows)).toEqual([])
  })
})
