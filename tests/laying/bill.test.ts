import { expect, it } from 'vitest'
import { billOf } from '../../src/laying/bill.ts'
import type { Supplies } from '../../src/laying/supplies.ts'

const supplies: Supplies = {
  currency: 'EUR',
  sticks: [
    { lengthMm: 1524, price: '14.50', packSize: 1, onHand: 4, buyable: true },
    { lengthMm: 1828.8, price: '0.10', packSize: 3, onHand: 0, buyable: true },
    { lengthMm: 900, price: '1.00', packSize: 1, onHand: 9, buyable: true },
  ],
  joiners: { packSize: 10, pricePerPack: '9.00', onHand: 6 },
  ties: { packSize: 100, pricePerPack: '21.00', onHand: 250, spacingMm: 45, fastenersPerTie: 4 },
  fasteners: { packSize: 500, pricePerPack: null, onHand: 0 },
  insulatedJoiners: { packSize: 2, pricePerPack: '3.40', onHand: 1 },
  expansionJoints: { packSize: 1, pricePerPack: null, onHand: 0 },
  kerfMm: 1,
  minimumPieceMm: 150,
}
const NO_BREAKS = { insulatedJoiners: 0, expansionJoints: 0 }
const sticks = [1524, 1524, 1828.8, 1828.8, 1828.8, 1828.8].map((lengthMm) => ({ lengthMm }))

it('packs are rounded up after what is on hand, money is exact, unpriced lines are counted', () => {
  const bill = billOf({ ...NO_BREAKS, joiners: 17, ties: 200, sticks }, supplies, 'code 250 brass')
  // by hand: 4 sticks in packs of 3 are 2 packs at 0.10; 11 joiners are 2 packs; 250 ties on hand are enough
  expect(bill.lines).toMatchObject([
    { item: 'rail-stick', lengthMm: 1524, required: 2, onHand: 4, toBuy: 0, packs: 0, amount: '0.00' },
    {
      item: 'rail-stick',
      lengthMm: 1828.8,
      required: 4,
      toBuy: 4,
      packSize: 3,
      packs: 2,
      unitPrice: '0.10',
      amount: '0.20',
    },
    { item: 'joiner', lengthMm: null, required: 17, onHand: 6, toBuy: 11, packs: 2, amount: '18.00' },
    { item: 'tie', required: 200, toBuy: 0, packs: 0, amount: '0.00' },
    { item: 'fastener', required: 800, toBuy: 800, packs: 2, unitPrice: null, amount: null },
  ])
  expect(bill).toMatchObject({ currency: 'EUR', total: '18.20', unpricedLines: 1 })
  expect(bill.lines[0]?.description).toBe('Rail, code 250 brass, 1524 mm (5 ft)')
})

it('a plan that takes nothing buys nothing', () => {
  const bill = billOf({ ...NO_BREAKS, joiners: 0, ties: 0, sticks: [] }, supplies, 'rail')
  expect(bill.lines.map(({ item, packs }) => [item, packs])).toEqual([
    ['joiner', 0],
    ['tie', 0],
    ['fastener', 0],
  ])
  expect(bill.total).toBe('0.00')
})

it('insulated joiners and expansion joints have lines where there are any', () => {
  const needs = { joiners: 2, insulatedJoiners: 4, expansionJoints: 2, ties: 1, sticks: [] }
  const bill = billOf(needs, supplies, 'rail')
  // by hand: one insulated joiner is there, three more are two packs of two
  expect(bill.lines.slice(1, 3)).toMatchObject([
    { item: 'insulated-joiner', required: 4, onHand: 1, toBuy: 3, packs: 2, amount: '6.80' },
    { item: 'expansion-joint', required: 2, toBuy: 2, packs: 2, unitPrice: null, amount: null },
  ])
})
