import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  compareMoney,
  inPlaces,
  minorUnitsOf,
  moneyOf,
  parseMoney,
  percentOf,
  placesOf,
  priceOf,
  sumOf,
  tooFine,
} from '../../src/measure/money.ts'

describe('prices', () => {
  it.each([
    ['14.50', '14.50'],
    [14.5, '14.50'],
    ['9', '9.00'],
    [0, '0.00'],
    ['0.10', '0.10'],
    [' 2.75 ', '2.75'],
    ['1.500', '1.50'],
    ['1000000000', '1000000000.00'],
    ['0.125', '0.125'],
    ['1.23450', '1.2345'],
  ])('%s', (value, money) => {
    expect(parseMoney(value)).toEqual({ ok: true, money })
  })

  it.each(['-1', '1,50', '$3', '', '1e3', '0.12345', 0.12345, Number.NaN, 1e21, '1000000000.01'])(
    'refuses %j',
    (value) => {
      expect(parseMoney(value).ok).toBe(false)
    },
  )

  it('shows the first forty signs of what is no price', () => {
    const parsed = parseMoney('x'.repeat(50))
    expect(parsed).toMatchObject({ ok: false, reason: `"${'x'.repeat(40)}" is not a price` })
  })

  it('is exact where binary floats are not', () => {
    // by hand: 0.1 + 0.2 = 0.3; 3 × 1.10 = 3.30
    expect(sumOf(['0.10', '0.20'])).toBe('0.30')
    expect(priceOf(3, '1.10')).toBe('3.30')
    expect(sumOf([])).toBe('0.00')
    expect(compareMoney('10.00', '9.99')).toBeGreaterThan(0)
  })

  it('counts cents as integers do', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(10_000_000)), fc.nat(10_000), fc.nat(1_000_000), (cents, count, price) => {
        const text = (value: number) => `${Math.floor(value / 100)}.${String(value % 100).padStart(2, '0')}`
        expect(sumOf(cents.map(text))).toBe(text(cents.reduce((a, b) => a + b, 0)))
        expect(priceOf(count, text(price))).toBe(text(count * price))
        expect([minorUnitsOf(text(price)), moneyOf(price, 2)]).toEqual([price, text(price)])
      }),
    )
  })

  it('takes percents of an amount to the nearest cent, half a cent up', () => {
    // by hand
    expect(percentOf('18.20', 19)).toBe('3.46')
    expect(percentOf('0.10', 5)).toBe('0.01')
    expect(percentOf('0.08', 5)).toBe('0.00')
    expect(percentOf('1.15', 100)).toBe('1.15')
    expect(percentOf('0.00', 19)).toBe('0.00')
  })
})

describe('currencies', () => {
  // published: the minor units of ISO 4217
  it.each([
    ['USD', 2],
    ['EUR', 2],
    ['JPY', 0],
    ['KRW', 0],
    ['ISK', 0],
    ['BHD', 3],
    ['KWD', 3],
    ['TND', 3],
    ['OMR', 3],
    ['JOD', 3],
    ['CLF', 4],
    ['XXX', 2],
  ])('%s has %d decimal places', (currency, places) => {
    expect(placesOf(currency)).toBe(places)
    // by hand: one smallest unit, and a tenth of it
    expect(minorUnitsOf(moneyOf(1, places))).toBe(1)
    expect(tooFine(moneyOf(1, places), currency)).toBeNull()
    expect(tooFine(moneyOf(1, places + 1), currency)).not.toBeNull()
  })

  it('takes zeros for no places', () => {
    expect(tooFine('1450.00', 'JPY')).toBeNull()
    expect(inPlaces('1450.00', 0)).toBe('1450')
    expect(inPlaces('1.50', 3)).toBe('1.500')
  })

  it('says what is too fine, and what to do', () => {
    expect(tooFine('14.50', 'JPY')).toEqual({
      reason: '14.50 has decimal places',
      hint: 'JPY has none: check the currency, or give the price of a larger pack',
    })
    expect(tooFine('1.2345', 'KWD')?.reason).toBe('1.2345 has more than three decimal places')
    expect(tooFine('0.125', 'USD')?.reason).toBe('0.125 has more than two decimal places')
  })

  it('keeps the places of what is added and multiplied (by hand)', () => {
    expect(sumOf(['1450', '50'])).toBe('1500')
    expect(sumOf(['1.234', '0.001'])).toBe('1.235')
    expect(sumOf([], 3)).toBe('0.000')
    expect(priceOf(3, '1.235')).toBe('3.705')
    expect(percentOf('1505', 10)).toBe('151')
    expect(percentOf('1.505', 10)).toBe('0.151')
  })
})
