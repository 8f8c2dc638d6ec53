import fc from 'fast-check'
import { NOTHING, type Stock, type StockedPanel } from '../../src/shed/stock.ts'

export const BRASS = { section: '250', material: 'brass' } as const
const OTHERS = [BRASS, { section: '250', material: 'aluminium' }, { section: '332', material: 'brass' }] as const

export const stockOf = (change: Partial<Stock> = {}): Stock => ({ ...NOTHING, ...change })

export const straightPanel = (lengthMm: number, ties: number, count: number): StockedPanel => ({
  ...BRASS,
  ...{ lengthMm, radiusMm: null, angleDeg: null, ties, count },
})
/** A curve of 2500 mm radius. */
export const curvedPanel = (angleDeg: number, ties: number, count: number): StockedPanel => ({
  ...BRASS,
  ...{ lengthMm: (2500 * angleDeg * Math.PI) / 180, radiusMm: 2500, angleDeg, ties, count },
})

const rail = fc.constantFrom(...OTHERS)
/** Whole sticks, offcuts, and one that differs from a whole stick by less than anybody can measure. */
const lengthMm = fc.constantFrom(1524, 1524.0000004, 1828.8, 900.1, 437.25, 160, 100)

/** Straight and curved, whole and cut, with ties and without, and two of one size that differ in how many. */
const panel = fc.constantFrom(
  ...[straightPanel(600, 13, 1), straightPanel(600, 12, 1), straightPanel(600, 0, 1), straightPanel(351.5, 7, 1)],
  ...[curvedPanel(30, 24, 1), curvedPanel(30, 0, 1), curvedPanel(11.25, 9, 1), curvedPanel(11.2500000001, 9, 1)],
)

const rows = <Row extends object>(of: fc.Arbitrary<Row>, most: number, maxLength: number) =>
  fc.array(
    fc.record({ kind: rail, row: of, count: fc.nat(most) }).map(({ kind, row, count }) => ({ ...row, ...kind, count })),
    { maxLength },
  )
const parts = rows(fc.constant({}), 9, 3)

/** Stock as people have it, in no order, with rows twice and empty ones. */
export const anyStock: fc.Arbitrary<Stock> = fc.record({
  sticks: rows(fc.record({ lengthMm }), 4, 8),
  panels: rows(panel, 4, 8),
  joiners: parts,
  insulatedJoiners: parts,
  transitionJoiners: parts,
  expansionJoints: parts,
  ties: fc.nat(120),
  tieStrips: fc.array(fc.record({ ties: fc.constantFrom(12, 24), count: fc.nat(9) }), { maxLength: 4 }),
  fasteners: fc.nat(400),
})
