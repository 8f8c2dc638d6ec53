import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { centsOf, compareMoney, moneyOf, parseMoney, percentOf, priceOf, sumOf } from '../../src/measure/money.ts'

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
  ])('%s', (value, money) => {
    expect(parseMoney(value)).toEqual({ ok: true, money })
  })

  it.each(['-1', '1,50', '$3', '', '1e3', '0.125', 0.125, Number.NaN, 1e21, '1000000000.01'])('refuses %j', (value) => {
    expect(parseMoney(value).ok).toBe(false)
  })

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
        expect([centsOf(text(price)), moneyOf(price)]).toEqual([price, text(price)])
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
