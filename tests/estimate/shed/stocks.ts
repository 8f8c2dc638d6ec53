import fc from 'fast-check'
import type { Stock } from '../../../src/estimate/shed/stock.ts'

export const BRASS = { section: '250', material: 'brass' } as const
const OTHERS = [BRASS, { section: '250', material: 'aluminium' }, { section: '332', material: 'brass' }] as const

export const stockOf = (change: Partial<Stock> = {}): Stock => ({
  sticks: [],
  joiners: [],
  ties: 0,
  fasteners: 0,
  ...change,
})

const rail = fc.constantFrom(...OTHERS)
/** Whole sticks, offcuts, and one that differs from a whole stick by less than anybody can measure. */
const lengthMm = fc.constantFrom(1524, 1524.0000004, 1828.8, 900.1, 437.25, 160, 100)

/** Stock as people have it, in no order, with rows twice and empty ones. */
export const anyStock: fc.Arbitrary<Stock> = fc.record({
  sticks: fc.array(
    fc.record({ kind: rail, lengthMm, count: fc.nat(4) }).map(({ kind, ...row }) => ({ ...kind, ...row })),
    { maxLength: 8 },
  ),
  joiners: fc.array(
    fc.record({ kind: rail, count: fc.nat(9) }).map(({ kind, ...row }) => ({ ...kind, ...row })),
    { maxLength: 3 },
  ),
  ties: fc.nat(120),
  fasteners: fc.nat(400),
})
