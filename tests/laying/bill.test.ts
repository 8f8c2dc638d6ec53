import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { billOf, inWholeOnes, type Need } from '../../src/laying/bill.ts'
import type { Pack } from '../../src/plan/rows/supplies.ts'

const pack = (more: Partial<Pack> = {}): Pack => ({
  packSize: 1,
  pricePerPack: null,
  onHand: 0,
  sparePct: 0,
  massEachG: null,
  ...more,
})
const need = (quantity: number, sold: Partial<Pack>, more: Partial<Need> = {}): Need => ({
  item: 'joiner',
  description: 'Rail joiner',
  reasons: [{ text: 'here', track: 'main', quantity }],
  pack: pack(sold),
  ...more,
})
const EURO = { currency: 'EUR', taxRatePct: null }

it('packs are rounded up after what is on hand, money is exact, unpriced lines are counted', () => {
  const bill = billOf(
    [
      need(2, { pricePerPack: '14.50', onHand: 4 }, { item: 'rail-stick', lengthMm: 1524 }),
      need(4, { pricePerPack: '0.10', packSize: 3 }, { item: 'rail-stick', lengthMm: 1828.8 }),
      need(17, { pricePerPack: '9.00', packSize: 10, onHand: 6 }),
      need(200, { pricePerPack: '21.00', packSize: 100, onHand: 250 }, { item: 'tie' }),
      need(800, { packSize: 500 }, { item: 'fastener' }),
    ],
    EURO,
  )
  // by hand: 4 sticks in packs of 3 are 2 packs at 0.10; 11 joiners are 2 packs; 250 ties on hand are enough
  expect(bill.lines).toMatchObject([
    { item: 'rail-stick', lengthMm: 1524, unit: 'each', required: 2, onHand: 4, toBuy: 0, packs: 0, amount: '0.00' },
    { item: 'rail-stick', lengthMm: 1828.8, required: 4, toBuy: 4, packs: 2, unitPrice: '0.10', amount: '0.20' },
    { item: 'joiner', lengthMm: null, required: 17, onHand: 6, toBuy: 11, packs: 2, amount: '18.00' },
    { item: 'tie', required: 200, toBuy: 0, packs: 0, amount: '0.00' },
    { item: 'fastener', required: 800, toBuy: 800, packs: 2, unitPrice: null, amount: null },
  ])
  expect(bill).toMatchObject({ currency: 'EUR', total: '18.20', net: '18.20', unpricedLines: 1 })
  expect(bill).toMatchObject({ taxRatePct: null, tax: null, gross: null })
})

it('a plan that takes nothing buys nothing', () => {
  const bill = billOf([need(0, { pricePerPack: '9.00', sparePct: 50 })], EURO)
  expect(bill.lines).toMatchObject([{ required: 0, spares: 0, packs: 0, amount: '0.00', massKg: 0, reasons: [] }])
  expect(bill).toMatchObject({ total: '0.00', massKg: 0, linesWithoutMass: 0 })
})

describe('spares', () => {
  // by hand
  it.each([
    [100, 7, 7],
    [100, 7.1, 8],
    [712, 5, 36],
    [1, 1, 1],
    [0, 100, 0],
    [300, 10, 30],
    [29, 0, 0],
  ])('of %d at %d %%: %d whole ones', (count, sparePct, spares) => {
    expect(billOf([need(count, { sparePct })], EURO).lines).toMatchObject([
      { spares, required: count + spares, sparePct },
    ])
  })

  it('of what is measured are not rounded, the packs are', () => {
    // by hand: 40 L and 10 % are 44 L, two bags of 22 L; with 1 L less on the bill's slack still two
    const line = (litres: number) =>
      billOf([need(litres, { packSize: 22, sparePct: 10 }, { item: 'ballast', unit: 'L' })], EURO).lines[0]!
    expect(line(40).required).toBeCloseTo(44, 12)
    expect(line(40).packs).toBe(2)
    expect(line(40.001).packs).toBe(3)
  })
})

describe('tax', () => {
  // by hand: 19 % of 18.20 is 3.458; 7.25 % of 0.20 is 0.0145; half a cent goes up
  it.each([
    ['18.20', 19, '3.46', '21.66'],
    ['0.20', 7.25, '0.01', '0.21'],
    ['0.10', 5, '0.01', '0.11'],
    ['1000000000.00', 8.875, '88750000.00', '1088750000.00'],
    ['5.00', 0, '0.00', '5.00'],
  ])('on %s at %d %% is %s', (pricePerPack, taxRatePct, tax, gross) => {
    const bill = billOf([need(1, { pricePerPack })], { currency: 'USD', taxRatePct })
    expect(bill).toMatchObject({ total: pricePerPack, net: pricePerPack, taxRatePct, tax, gross })
  })
})

it('mass is that of the packs that are bought, and says where it is not known', () => {
  const bill = billOf(
    [need(17, { packSize: 10, onHand: 6, massEachG: 3 }), need(5, { packSize: 10 }), need(5, { onHand: 5 })],
    EURO,
  )
  expect(bill.lines.map(({ massKg }) => massKg)).toEqual([expect.closeTo(0.06, 12), null, 0])
  expect(bill.massKg).toBeCloseTo(0.06, 12)
  expect(bill.linesWithoutMass).toBe(1)
})

describe('reasons', () => {
  it('of nothing are left out', () => {
    const reasons = [
      { text: 'a', track: 'x', quantity: 0 },
      { text: 'b', track: null, quantity: 3 },
    ]
    expect(billOf([need(0, {}, { reasons })], EURO).lines[0]!.reasons).toEqual([reasons[1]])
  })

  it('and spares always add up to what is required; whole ones are whole', () => {
    const quantities = fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { maxLength: 12 })
    fc.assert(
      fc.property(
        quantities,
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.nat(500),
        fc.boolean(),
        (parts, sparePct, onHand, whole) => {
          const given = parts.map((quantity, n) => ({ text: 'part', track: `${n}`, quantity }))
          const reasons = whole ? inWholeOnes(given) : given
          const unit = whole ? ('each' as const) : ('kg' as const)
          const line = billOf([need(0, { sparePct, onHand, packSize: 7 }, { reasons, unit })], EURO).lines[0]!
          const sum = line.reasons.reduce((total, { quantity }) => total + quantity, 0)
          expect(Math.abs(sum + line.spares - line.required)).toBeLessThanOrEqual(1e-6 * Math.max(1, line.required))
          expect(line.toBuy).toBe(Math.max(0, line.required - onHand))
          expect(line.packs * 7 + 1e-6 * Math.max(1, line.toBuy)).toBeGreaterThanOrEqual(line.toBuy)
          expect((line.packs - 1) * 7).toBeLessThan(Math.max(line.toBuy, 1e-9))
          if (whole) {
            expect(Number.isInteger(line.required)).toBe(true)
            expect(Number.isInteger(line.spares)).toBe(true)
            const exact = parts.reduce((total, part) => total + part, 0)
            expect(line.required - line.spares - exact).toBeLessThan(1)
          }
        },
      ),
    )
  })
})
