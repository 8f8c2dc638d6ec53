import fc from 'fast-check'
import { expect, it } from 'vitest'
import { exceeds, piecesToCover, roundedUp, sameLength, wholePiecesIn } from '../../src/measure/counting.ts'

const FOOT = 304.8

it('twelve 6-ft lengths make 72 ft however they were summed, a thousandth of a thousandth either way', () => {
  const summed = Array.from({ length: 12 }, () => 6 * FOOT).reduce((a, b) => a + b, 0)
  for (const total of [summed, 72 * FOOT, 72 * FOOT + 9e-7, 72 * FOOT - 9e-7]) {
    expect(wholePiecesIn(total, 6 * FOOT)).toBe(12)
    expect(piecesToCover(total, 6 * FOOT)).toBe(12)
  }
  expect(piecesToCover(72 * FOOT + 0.001, 6 * FOOT)).toBe(13)
  expect(wholePiecesIn(72 * FOOT - 0.001, 6 * FOOT)).toBe(11)
})

it('counts nothing in nothing', () => {
  expect([wholePiecesIn(0, 5), piecesToCover(0, 5), piecesToCover(-1, 5)]).toEqual([0, 0, 0])
})

it('whole pieces fit, and as many as cover are enough', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1e6, noNaN: true }),
      fc.double({ min: 1, max: 1e4, noNaN: true }),
      (total, each) => {
        expect(wholePiecesIn(total, each) * each).toBeLessThanOrEqual(total + 2e-6)
        expect(piecesToCover(total, each) * each).toBeGreaterThanOrEqual(total - 2e-6)
      },
    ),
  )
})

it('a millionth of a millimetre is not longer', () => {
  expect([exceeds(5 + 9e-7, 5), exceeds(5.001, 5), exceeds(5, 5)]).toEqual([false, true, false])
})

it('lengths are the same within a millionth of a millimetre, whichever is longer', () => {
  for (const [a, b, same] of [
    [304.8, 304.8 + 9e-7, true],
    [304.8, 304.8 + 2e-6, false],
    [-5, 5, false],
    [0, 0, true],
  ] as const)
    expect([sameLength(a, b), sameLength(b, a)]).toEqual([same, same])
})

it('counts that were worked out are rounded up, but not for the error of a float', () => {
  // by hand; 7 % of 100 and 0.1 + 0.2 are a little too much in floats
  expect([roundedUp((100 * 7) / 100), roundedUp((0.1 + 0.2) * 10), roundedUp(7.0001), roundedUp(7)]).toEqual([
    7, 3, 8, 7,
  ])
  // At most a thousandth counts as an error, and a little less than nothing is nothing.
  expect([roundedUp(5e6 + 0.004), roundedUp(5e6 + 0.0009), roundedUp(5e5 + 0.0004)]).toEqual([5e6 + 1, 5e6, 5e5])
  expect(Object.is(roundedUp(-1e-12), 0)).toBe(true)
  expect([roundedUp(0), roundedUp(1e-12), roundedUp(1e-6), roundedUp(1e12), roundedUp(1e12 + 0.5)]).toEqual([
    0,
    0,
    1,
    1e12,
    1e12 + 1,
  ])
})
