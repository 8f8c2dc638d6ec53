import fc from 'fast-check'
import { expect, it } from 'vitest'
import { plainDecimal } from '../../src/measure/plain-decimal.ts'

it('has digits alone, and reads back as the same number', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      const text = plainDecimal(value)
      expect(text).toMatch(/^-?(0|[1-9]\d*)(\.\d+)?$/)
      expect(Number(text)).toBe(value === 0 ? 0 : value)
    }),
  )
})

it.each([
  [0, '0'],
  [-0, '0'],
  [1e21, '1000000000000000000000'],
  [-1.5e-7, '-0.00000015'],
  [2743.2, '2743.2'],
])('%s is %s (by hand)', (value, text) => expect(plainDecimal(value)).toBe(text))

it('refuses what has no digits', () => {
  expect(() => plainDecimal(Number.NaN)).toThrow(RangeError)
  expect(() => plainDecimal(Number.POSITIVE_INFINITY)).toThrow(RangeError)
})
