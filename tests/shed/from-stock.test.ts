import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { leftOver } from '../../src/shed/after-building.ts'
import { estimateFromStock } from '../../src/shed/from-stock.ts'
import { isNothing, minus, NOTHING, type Stock } from '../../src/shed/stock.ts'
import { arc, asRead, planOf, straight } from '../estimate/plans.ts'
import { anyStock, BRASS, stockOf } from './stocks.ts'

function drawn(plan: PlanInput, stock: Stock): { estimate: Estimate; taken: Stock } {
  const result = estimateFromStock(plan, stock)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result
}

const line = ({ bill }: Estimate, item: string, lengthMm: number | null = null) =>
  bill.lines.find((each) => each.item === item && each.lengthMm === lengthMm)!

/** Two rails of 3000 mm from sticks of 1500 mm: four sticks, two joiners, 67 ties. */
const plan = (supplies: PlanInput['supplies'] = {}): PlanInput =>
  planOf([straight(3000)], {}, { supplies: { sticks: [{ length: 1500, price: '10.00', packSize: 3 }], ...supplies } })

describe('a plan and the shed', () => {
  test('without stock it is answered as it would be by itself, to the last byte', () => {
    for (const each of [plan(), planOf([arc(3000, 30)])])
      expect(JSON.stringify({ ok: true, estimate: drawn(each, NOTHING).estimate })).toBe(JSON.stringify(estimate(each)))
  })

  test('what it leaves open is filled in, listed, and taken', () => {
    const stock = stockOf({
      sticks: [{ ...BRASS, lengthMm: 1500, count: 3 }],
      joiners: [{ ...BRASS, count: 9 }],
      ties: 50,
      fasteners: 300,
    })
    const { estimate: answer, taken } = drawn(plan(), stock)
    expect(line(answer, 'rail-stick', 1500)).toMatchObject({ required: 4, onHand: 3, toBuy: 1, packs: 1 })
    expect(line(answer, 'tie')).toMatchObject({ required: 67, onHand: 50, toBuy: 17 })
    expect(taken).toEqual({
      ...NOTHING,
      sticks: [{ ...BRASS, lengthMm: 1500, count: 3 }],
      joiners: [{ ...BRASS, count: 2 }],
      ties: 50,
      fasteners: 268,
    })
    const reason = 'in the shed and not reserved for another project'
    expect(answer.assumptions).toEqual(
      expect.arrayContaining([
        { field: '/supplies/sticks/0/onHand', value: '3', reason },
        { field: '/supplies/joiners/onHand', value: '9', reason },
        { field: '/supplies/ties/onHand', value: '50', reason },
        { field: '/supplies/fasteners/onHand', value: '300', reason },
      ]),
    )
    const fields = answer.assumptions.map(({ field }) => field)
    expect(new Set(fields).size).toBe(fields.length)
  })

  test('what it states itself stands, 0 too, and is not taken from the shed', () => {
    const stock = stockOf({
      sticks: [{ ...BRASS, lengthMm: 1500, count: 4 }],
      joiners: [{ ...BRASS, count: 9 }],
      ties: 99,
    })
    const stated = plan({
      sticks: [{ length: 1500, onHand: 0 }],
      joiners: { onHand: 1 },
      ties: { onHand: 7 },
      fasteners: { onHand: 0 },
    })
    const { estimate: answer, taken } = drawn(stated, stock)
    expect(JSON.stringify({ ok: true, estimate: answer })).toBe(JSON.stringify(estimate(stated)))
    expect(isNothing(taken)).toBe(true)
  })

  test('a length that only lies in the shed is used and not to be bought', () => {
    const { estimate: answer, taken } = drawn(plan(), stockOf({ sticks: [{ ...BRASS, lengthMm: 3000, count: 1 }] }))
    expect(line(answer, 'rail-stick', 3000)).toMatchObject({ required: 1, onHand: 1, toBuy: 0, packs: 0 })
    expect(line(answer, 'rail-stick', 1500)).toMatchObject({ required: 2, onHand: 0, toBuy: 2 })
    expect(taken.sticks).toEqual([{ ...BRASS, lengthMm: 3000, count: 1 }])
  })

  test('without sticks of its own it keeps the usual length to buy beside what is there', () => {
    const { estimate: answer } = drawn(
      planOf([straight(3000)]),
      stockOf({ sticks: [{ ...BRASS, lengthMm: 3000, count: 1 }] }),
    )
    expect(line(answer, 'rail-stick', 1524)).toMatchObject({ required: 2, toBuy: 2 })
    expect(answer.assumptions).toContainEqual(
      expect.objectContaining({ field: '/supplies/sticks', reason: 'no sticks given' }),
    )
  })

  test('another section, another metal and a rail of one’s own take no rail and no joiners', () => {
    const stock = stockOf({ sticks: [{ ...BRASS, lengthMm: 1500, count: 4 }], joiners: [{ ...BRASS, count: 9 }] })
    const own = { height: 6.3, headWidth: 2.8, footWidth: 5, webThickness: 1.2 }
    for (const rail of [
      { section: '332', material: 'brass' },
      { section: '250', material: 'aluminium' },
      { section: own, material: 'brass' },
    ])
      expect(isNothing(drawn({ ...plan(), rail }, stock).taken)).toBe(true)
  })

  test('both spellings of a metal are one', () => {
    const stock = stockOf({ sticks: [{ section: '250', material: 'aluminium', lengthMm: 1500, count: 4 }] })
    const { taken } = drawn(asRead({ ...plan(), rail: { section: '250', material: 'aluminum' } }), stock)
    expect(taken.sticks).toEqual([{ section: '250', material: 'aluminium', lengthMm: 1500, count: 4 }])
  })

  /** Joined to code 332 where it starts; an expansion joint and an insulated one on either rail. */
  const broken = (supplies: PlanInput['supplies']): PlanInput => {
    const { tracks, ...rest } = plan(supplies)
    return {
      ...rest,
      tracks: tracks.map((track) => ({
        ...track,
        joinsExisting: { start: { section: '332', material: 'brass' } },
        breaks: [
          { at: 750, kind: 'expansion-joint' },
          { at: 1500, kind: 'insulated' },
        ],
      })),
    }
  }

  test('insulated and transition joiners and expansion joints are drawn on, and what is over of their packs comes back', () => {
    const stock = stockOf({
      insulatedJoiners: [{ ...BRASS, count: 5 }],
      transitionJoiners: [{ ...BRASS, count: 3 }],
      expansionJoints: [
        { ...BRASS, count: 1 },
        { ...BRASS, material: 'aluminium', count: 9 },
      ],
    })
    const open = broken({ expansionJoints: { packSize: 4 } })
    const { estimate: answer, taken } = drawn(open, stock)
    // By hand: two of each, one on either rail; of the expansion joints one is there and four are in a pack.
    expect(line(answer, 'insulated-joiner')).toMatchObject({ required: 2, onHand: 5, toBuy: 0 })
    expect(line(answer, 'transition-joiner')).toMatchObject({ required: 2, onHand: 3, toBuy: 0 })
    expect(line(answer, 'expansion-joint')).toMatchObject({ required: 2, onHand: 1, toBuy: 1, packs: 1 })
    expect(taken).toEqual(
      stockOf({
        insulatedJoiners: [{ ...BRASS, count: 2 }],
        transitionJoiners: [{ ...BRASS, count: 2 }],
        expansionJoints: [{ ...BRASS, count: 1 }],
      }),
    )
    expect(leftOver(open, answer)).toMatchObject({
      insulatedJoiners: [],
      transitionJoiners: [],
      expansionJoints: [{ ...BRASS, count: 3 }],
    })
    const stated = { onHand: 0 }
    const said = broken({ insulatedJoiners: stated, transitionJoiners: stated, expansionJoints: stated })
    expect(isNothing(drawn(said, stock).taken)).toBe(true)
    // A plan that needs none of them says nothing of them.
    expect(drawn(plan(), stock)).toEqual(drawn(plan(), NOTHING))
  })

  test('moulded strips are drawn on by the ties in one, single ties then stay where they are', () => {
    const stock = stockOf({
      ties: 50,
      tieStrips: [
        { ties: 24, count: 9 },
        { ties: 12, count: 4 },
      ],
    })
    const open = plan({ ties: { strip: { ties: 12, packSize: 5 } } })
    const { estimate: answer, taken } = drawn(open, stock)
    // By hand: 67 ties take six strips of 12; four are there, five in a pack.
    expect(line(answer, 'tie-strip')).toMatchObject({ required: 6, onHand: 4, toBuy: 2, packs: 1 })
    expect(taken).toEqual(stockOf({ tieStrips: [{ ties: 12, count: 4 }] }))
    expect(leftOver(open, answer)).toMatchObject({ ties: 0, tieStrips: [{ ties: 12, count: 3 }] })
    expect(answer.assumptions).toContainEqual(
      expect.objectContaining({ field: '/supplies/ties/strip/onHand', value: '4' }),
    )
    expect(answer.assumptions.map(({ field }) => field)).not.toContain('/supplies/ties/onHand')
    expect(isNothing(drawn(plan({ ties: { strip: { ties: 12, onHand: 0 } } }), stock).taken)).toBe(true)
  })

  const anyPlan = fc
    .record({
      lengths: fc.array(fc.integer({ min: 40, max: 6000 }), { minLength: 1, maxLength: 5 }),
      degrees: fc.integer({ min: 1, max: 120 }),
      packSize: fc.integer({ min: 1, max: 7 }),
      stated: fc.option(fc.nat(3), { nil: undefined }),
      minimumPieceMm: fc.constantFrom(0, 150, 300),
    })
    .map(({ lengths, degrees, packSize, stated, minimumPieceMm }) =>
      planOf(
        [...lengths.map(straight), arc(2500, degrees)],
        {},
        {
          supplies: {
            sticks: [{ length: 1524, packSize, onHand: stated }, { length: 1828.8 }],
            joiners: { packSize: 10 },
            ties: { packSize: 25 },
            fasteners: { packSize: 100 },
            minimumPiece: minimumPieceMm,
          },
        },
      ),
    )

  test('never takes more than is there, and reconciles when it is built', () => {
    fc.assert(
      fc.property(anyPlan, anyStock, (anyOne, stock) => {
        const { estimate: answer, taken } = drawn(anyOne, stock)
        minus(stock, taken)
        const returned = leftOver(anyOne, answer)
        const sum = (rows: readonly { lengthMm: number; count: number }[]) =>
          rows.reduce((total, { lengthMm, count }) => total + lengthMm * count, 0)
        const sticks = answer.bill.lines.filter(({ item }) => item === 'rail-stick')
        const boughtMm = sticks.reduce((total, each) => total + each.packs * each.packSize * each.lengthMm!, 0)
        const statedMm =
          1524 *
          (anyOne.supplies!.sticks![0]!.onHand === undefined
            ? 0
            : answer.cutting.sticks.filter(({ lengthMm, fromStock }) => fromStock && lengthMm === 1524).length)
        const { cutting } = answer
        const laidMm = cutting.sticks
          .flatMap(({ pieces }) => pieces)
          .reduce((total, { lengthMm }) => total + lengthMm, 0)
        const lostMm = cutting.wasteMm - cutting.reusableMm
        // Rail is neither made nor lost: what came is laid, lost as kerf and short ends, or in the shed.
        expect(sum(taken.sticks) + boughtMm + statedMm).toBeCloseTo(laidMm + lostMm + sum(returned.sticks), 4)
        const ties = line(answer, 'tie')
        expect(taken.ties + ties.packs * 25 - ties.required).toBe(returned.ties)
      }),
    )
  })
})
