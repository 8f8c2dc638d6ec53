import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseLength } from '../../src/measure/length.ts'
import { meant, meantNumber } from '../../src/measure/meant.ts'

const MM = { ft: 304.8, in: 25.4, m: 1000, cm: 10, mm: 1 } as const

/** By the decimal digits of its shortest text. */
function digitsOf(x: number): number {
  return String(Math.abs(x))
    .replace(/e.*$/, '')
    .replace('.', '')
    .replace(/^0+|0+$/g, '').length
}

describe('a number as it was meant', () => {
  it.each([
    [762 / 25.4, 30], // by hand: 30 in
    [0.1 + 0.2, 0.3], // by hand
    [-(0.1 + 0.2), -0.3],
    [1.005 * 1000, 1005], // by hand
    [1 / 3, 0.3333333333333], // by hand, 13 digits
    [2 / 3e6, 6.666666666667e-7], // by hand
    [9.9999999999999, 10], // by hand: the 14th digit carries up to the first
    [123456789012345, 123456789012345], // whole numbers stay
    [1234567890123.75, 1234567890124], // by hand, 13 digits
    [999999999999.9999, 1e12], // by hand: just under where scaling ends
    [4e-15, 4e-15],
    [1e300, 1e300],
    [0, 0],
  ])('%d is %d', (value, expected) => {
    expect(meantNumber(value)).toBe(expected)
  })

  it('leaves nothing of coordinates that cancel, but keeps small numbers of other units', () => {
    const answer = { xMm: 1.4e-13, headingDeg: -3e-10, resistanceOhm: 3e-10, curvaturePerMm: 1e-10 }
    expect(meant(answer)).toEqual({ xMm: 0, headingDeg: 0, resistanceOhm: 3e-10, curvaturePerMm: 1e-10 })
  })

  // Closed form: a length of at most 9 digits in any unit, converted to mm and back, is that length.
  it('finds every length again that was converted to mm and back', () => {
    const length = fc.tuple(fc.integer({ min: 1, max: 999_999_999 }), fc.integer({ min: 0, max: 6 }))
    fc.assert(
      fc.property(length, fc.constantFrom('ft', 'in', 'm', 'cm', 'mm'), ([digits, places], unit) => {
        const typed = Number(`${digits}e-${places}`)
        const parsed = parseLength(`${typed.toFixed(places)} ${unit}`)
        expect(parsed.ok && meantNumber(parsed.mm / MM[unit])).toBe(typed)
      }),
    )
  })

  it('has at most 13 digits, is within 1e-12, and is its own rounding', () => {
    const any = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.double({ min: -1e7, max: 1e7, noNaN: true }),
      fc.double({ min: 1e-10, max: 1e-6, noNaN: true }),
    )
    fc.assert(
      fc.property(any, (value) => {
        const rounded = meantNumber(value)
        expect(Math.abs(rounded - value)).toBeLessThanOrEqual(1e-12 * Math.abs(value))
        expect(meantNumber(rounded)).toBe(rounded)
        if (!Number.isInteger(value)) expect(digitsOf(rounded)).toBeLessThanOrEqual(13)
        // With 14 digits, the last a 5, both neighbours of 13 digits are as near.
        const isTie = digitsOf(value) === 14 && /5(e|$)/.test(String(value))
        if (!isTie) expect(rounded).toBe(Number.isInteger(value) ? value : Number(value.toPrecision(13)))
      }),
      { numRuns: 2000, examples: [[5e-324], [Number.MAX_VALUE], [0.5], [999999999999.5], [7.5703785002325e-7]] },
    )
  })
})

describe('an answer as it was meant', () => {
  it('keeps the order of fields, and what is not a number', () => {
    const answer = { b: [0.1 + 0.2, null, 'x', { z: 762 / 25.4, a: true }], a: 1 }
    expect(JSON.stringify(meant(answer))).toBe('{"b":[0.3,null,"x",{"z":30,"a":true}],"a":1}')
    expect(answer.b[0]).toBe(0.1 + 0.2)
  })

  it('is the same object if all of it is as it was meant', () => {
    const answer = { list: [{ lengthMm: 0.3 }, 1, null] }
    expect(meant(answer)).toBe(answer)
  })
})
