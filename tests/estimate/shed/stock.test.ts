import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isNothing, minus, NOTHING, plus, tidy } from '../../../src/estimate/shed/stock.ts'
import { anyStock, BRASS, stockOf } from './stocks.ts'

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

  test('cannot be taken from beyond what is there, of any kind', () => {
    const one = stockOf({
      sticks: [{ ...BRASS, lengthMm: 1524, count: 1 }],
      joiners: [{ ...BRASS, count: 1 }],
      ties: 1,
    })
    expect(isNothing(minus(one, one))).toBe(true)
    for (const part of [
      stockOf({ sticks: [{ ...BRASS, lengthMm: 1524, count: 2 }] }),
      stockOf({ sticks: [{ ...BRASS, lengthMm: 1523.9, count: 1 }] }),
      stockOf({ sticks: [{ ...BRASS, section: '332', lengthMm: 1524, count: 1 }] }),
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
