import { describe, expect, it } from 'vitest'
import { midOrdinateMm, quarterOrdinateMm } from '../../src/bending/ordinates.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Surveyor's field book, reference tables: Table II (ordinates of a 100-ft chord) and Table V/XI (middle ordinates for
 * rails, feet, by degree of curve); scan held by Dane County, Wisconsin, Planning. The tables take the chord definition
 * of the degree of curve, R = 50/sin(D/2) ft. Ordinates are lengths, so feet may stand for the program's millimetres.
 */
const radiusFt = (degree: number) => 50 / Math.sin((degree * Math.PI) / 360)

const CHORDS_FT = [32, 30, 28, 26, 24, 22, 20]
const RAILS: readonly (readonly [number, readonly number[]])[] = [
  [1, [0.022, 0.02, 0.017, 0.015, 0.013, 0.011, 0.009]],
  [2, [0.045, 0.039, 0.034, 0.03, 0.025, 0.021, 0.017]],
  [5, [0.112, 0.098, 0.085, 0.074, 0.063, 0.053, 0.044]],
  [7, [0.156, 0.137, 0.12, 0.103, 0.088, 0.074, 0.061]],
  [9, [0.201, 0.177, 0.154, 0.133, 0.113, 0.095, 0.078]],
  [10, [0.223, 0.196, 0.171, 0.147, 0.126, 0.105, 0.087]],
]

const rails: Row[] = RAILS.flatMap(([degree, ordinates]) =>
  ordinates.map((printed, column) => ({
    what: `${degree}°, rail of ${CHORDS_FT[column]} ft`,
    printed,
    computed: midOrdinateMm(radiusFt(degree), CHORDS_FT[column]!)!,
    // Half of the last digit and a little: at 2° and 26 ft the book rounds 0.02949 up.
    within: 0.00051,
    label: 'published',
  })),
)

const hundredFeet: Row[] = (
  [
    [0.5, 0.109],
    [1, 0.218],
    [2, 0.436],
    [7, 1.528],
    [8, 1.746],
    [9, 1.965],
  ] as const
).map(([degree, printed]) => ({
  what: `${degree}°, chord of 100 ft`,
  printed,
  computed: midOrdinateMm(radiusFt(degree), 100)!,
  within: 0.001,
  label: 'published',
}))

/** The old rule of the field books (from memory): the quarter ordinate is ¾ of the middle one. Good to 0.1 % on rails. */
const quarters: Row[] = RAILS.flatMap(([degree]) =>
  CHORDS_FT.map((chord) => ({
    what: `quarter over middle ordinate, ${degree}°, ${chord} ft`,
    printed: 0.75,
    computed: quarterOrdinateMm(radiusFt(degree), chord)! / midOrdinateMm(radiusFt(degree), chord)!,
    within: 0.00075,
    label: 'from memory',
  })),
)

const exactQuarter: Row = {
  what: 'quarter over middle ordinate, 20°, 30 ft',
  printed: 0.7501,
  computed: quarterOrdinateMm(radiusFt(20), 30)! / midOrdinateMm(radiusFt(20), 30)!,
  within: 0.00005,
  label: 'derived',
}

describe('field-book middle ordinates', () => {
  const rows = [...rails, ...hundredFeet, ...quarters, exactQuarter]

  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 91 numbers, and a wrong one among them would show', () => {
    expect([rails.length, hundredFeet.length, quarters.length]).toEqual([42, 6, 42])
    expect(rows).toHaveLength(91)
    expect(blindRows(rows)).toEqual([])
  })
})
