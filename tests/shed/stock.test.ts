import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isNothing, minus, NOTHING, plus, stockAsKept, tidy } from '../../src/shed/stock.ts'
import { anyStock, BRASS, curvedPanel, stockOf, straightPanel } from './stocks.ts'

describe('stock', () => {
  test('is kept by section, material and length, the longest first, equal rows summed and empty ones left out', () => {
    const kept = tidy(
      stockOf({
        sticks: [
          { ...BRASS, lengthMm: 300, count: 1 },
          { ...BRASS, lengthMm: 1524, count: 2 },
          { section: '250', material: 'aluminium', lengthMm: 200, count: 1 },
          { ...BRASS, lengthMm: 1524.0000004, count: 3 },
          { ...BRASS, lengthMm: 900, count: 0 },
        ],
        joiners: [
          { ...BRASS, count: 2 },
          { ...BRASS, count: 4 },
        ],
      }),
    )
    expect(kept.sticks).toEqual([
      { section: '250', material: 'aluminium', lengthMm: 200, count: 1 },
      { ...BRASS, lengthMm: 1524, count: 5 },
      { ...BRASS, lengthMm: 300, count: 1 },
    ])
    expect(kept.joiners).toEqual([{ ...BRASS, count: 6 }])
  })

  test('keeps straights before curves, the larger first, of one size that with more ties, and has a curve by its angle', () => {
    const kept = tidy(
      stockOf({
        panels: [
          curvedPanel(11.25, 9, 1),
          { ...curvedPanel(30.00000000001, 24, 2), lengthMm: 0 },
          straightPanel(351.5, 7, 1),
          straightPanel(600, 12, 1),
          straightPanel(600.0000003, 13, 1),
          { ...straightPanel(600, 13, 4), section: '148' },
          curvedPanel(30, 24, 1),
          straightPanel(900, 0, 0),
        ],
        tieStrips: [
          { ties: 12, count: 1 },
          { ties: 24, count: 2 },
          { ties: 12, count: 3 },
        ],
      }),
    )
    expect(kept.panels).toEqual([
      { ...straightPanel(600, 13, 4), section: '148' },
      straightPanel(600, 13, 1),
      straightPanel(600, 12, 1),
      straightPanel(351.5, 7, 1),
      // By hand: 2500 mm · π/6 = 1308.996939 mm, 2500 mm · π/16 = 490.873852 mm.
      { ...curvedPanel(30, 24, 3), lengthMm: 1308.996939 },
      { ...curvedPanel(11.25, 9, 1), lengthMm: 490.873852 },
    ])
    expect(kept.tieStrips).toEqual([
      { ties: 24, count: 2 },
      { ties: 12, count: 4 },
    ])
  })

  test('that was kept when there were fewer kinds of things has none of the others', () => {
    const earlier = { sticks: [{ ...BRASS, lengthMm: 1524, count: 1 }], joiners: [], ties: 3, fasteners: 0 }
    expect(stockAsKept(earlier)).toEqual({ ...NOTHING, ...earlier })
    expect(minus(stockAsKept(earlier), stockAsKept({ ties: 3 })).panels).toEqual([])
  })

  test('cannot be taken from beyond what is there, of any kind', () => {
    const one = stockOf({
      sticks: [{ ...BRASS, lengthMm: 1524, count: 1 }],
      panels: [straightPanel(600, 13, 1), curvedPanel(30, 24, 1)],
      joiners: [{ ...BRASS, count: 1 }],
      insulatedJoiners: [{ ...BRASS, count: 1 }],
      ties: 1,
      tieStrips: [{ ties: 12, count: 1 }],
    })
    expect(isNothing(minus(one, one))).toBe(true)
    for (const part of [
      stockOf({ sticks: [{ ...BRASS, lengthMm: 1524, count: 2 }] }),
      stockOf({ sticks: [{ ...BRASS, lengthMm: 1523.9, count: 1 }] }),
      stockOf({ sticks: [{ ...BRASS, section: '332', lengthMm: 1524, count: 1 }] }),
      stockOf({ panels: [straightPanel(600, 13, 2)] }),
      stockOf({ panels: [straightPanel(600, 12, 1)] }),
      stockOf({ panels: [straightPanel(599, 13, 1)] }),
      stockOf({ panels: [{ ...straightPanel(600, 13, 1), section: '332' }] }),
      stockOf({ panels: [curvedPanel(29, 24, 1)] }),
      stockOf({ panels: [{ ...curvedPanel(30, 24, 1), radiusMm: 2400 }] }),
      stockOf({ insulatedJoiners: [{ ...BRASS, count: 2 }] }),
      stockOf({ transitionJoiners: [{ ...BRASS, count: 1 }] }),
      stockOf({ expansionJoints: [{ ...BRASS, count: 1 }] }),
      stockOf({ tieStrips: [{ ties: 12, count: 2 }] }),
      stockOf({ tieStrips: [{ ties: 24, count: 1 }] }),
      stockOf({ joiners: [{ ...BRASS, material: 'steel', count: 1 }] }),
      stockOf({ ties: 2 }),
      stockOf({ fasteners: 1 }),
    ])
      expect(() => minus(one, part)).toThrow(RangeError)
  })

  test('put together and taken apart again is what it was', () => {
    fc.assert(
      fc.property(anyStock, anyStock, (a, b) => {
        expect(minus(plus(a, b), b)).toEqual(tidy(a))
        expect(plus(a, b)).toEqual(plus(b, a))
        expect(plus(a, NOTHING)).toEqual(tidy(a))
      }),
    )
  })
})
