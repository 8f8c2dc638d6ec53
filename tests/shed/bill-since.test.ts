import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { BillLine } from '../../src/estimate/answer.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { SuppliesInput } from '../../src/plan/rows/supplies.ts'
import { type BillSince, billSince, type PlannedRevision } from '../../src/shed/bill-since.ts'
import { NOTHING, type Stock } from '../../src/shed/stock.ts'
import { arc, estimateOf, planOf, straight } from '../estimate/plans.ts'
import { anyStock, BRASS, stockOf } from './stocks.ts'

const SUPPLIES: SuppliesInput = {
  sticks: [{ length: 1500, price: '10.00', packSize: 3 }],
  joiners: { packSize: 10, pricePerPack: '9.00' },
  ties: { packSize: 100, pricePerPack: '21.00' },
  fasteners: { packSize: 500, pricePerPack: '12.00' },
}
const straightOf = (mm: number, supplies: SuppliesInput = SUPPLIES): PlanInput =>
  planOf([straight(mm)], {}, { supplies })
const of = (plan: PlanInput, stock: Stock = NOTHING): PlannedRevision => ({ plan, stock })

function since(...revisions: PlannedRevision[]): BillSince {
  const result = billSince(revisions)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.bill
}

const line = ({ lines }: BillSince, item: string, lengthMm: number | null = null) =>
  lines.find((each) => each.item === item && each.lengthMm === lengthMm)!
const pieces = ({ packs, packSize }: BillLine) => packs * packSize

describe('what more has to be bought', () => {
  test('without anything bought before is the bill as it is', () => {
    const plan = straightOf(4000)
    const { lines, findings, ...totals } = since(of(plan))
    const { lines: plain, ...plainTotals } = estimateOf(plan).bill
    expect(lines).toEqual(plain.map((each) => ({ ...each, boughtBefore: 0 })))
    expect([totals, findings]).toEqual([plainTotals, []])
  })

  test('for the same plan again is nothing', () => {
    const plan = straightOf(4000)
    const bill = since(of(plan), of(plan))
    expect(bill.lines.map(({ packs }) => packs)).toEqual(bill.lines.map(() => 0))
    expect([bill.total, bill.findings]).toEqual(['0.00', []])
  })

  test('for a longer one is the rest, counted from whole packs', () => {
    // By hand: 3000 mm take 4 sticks, 2 packs of 3; 6000 mm take 8 sticks, 3 packs. 67 ties in 1 pack; 134 in 2.
    const bill = since(of(straightOf(3000)), of(straightOf(6000)))
    expect(line(bill, 'rail-stick', 1500)).toMatchObject({
      required: 8,
      boughtBefore: 6,
      onHand: 6,
      toBuy: 2,
      packs: 1,
      amount: '10.00',
    })
    expect(line(bill, 'tie')).toMatchObject({ required: 134, boughtBefore: 100, toBuy: 34, packs: 1, amount: '21.00' })
    expect(line(bill, 'joiner')).toMatchObject({ required: 6, boughtBefore: 10, toBuy: 0, packs: 0 })
    expect(bill.total).toBe('43.00')
    expect(bill.findings).toEqual([])
  })

  test('counts on what the shed had for each revision, and on what each plan says is on hand', () => {
    const shed = stockOf({ sticks: [{ ...BRASS, lengthMm: 1500, count: 4 }], ties: 30 })
    const bill = since(of(straightOf(3000), shed), of(straightOf(6000), shed))
    expect(line(bill, 'rail-stick', 1500)).toMatchObject({
      required: 8,
      boughtBefore: 0,
      onHand: 4,
      toBuy: 4,
      packs: 2,
    })
    expect(line(bill, 'tie')).toMatchObject({ boughtBefore: 100, onHand: 130, toBuy: 4, packs: 1 })
  })

  test('a plan that shrank leaves over what was bought, and says so', () => {
    const bill = since(of(straightOf(15_000)), of(straightOf(3000)))
    expect(line(bill, 'rail-stick', 1500)).toMatchObject({ required: 4, boughtBefore: 21, toBuy: 0, packs: 0 })
    expect(bill.findings.map(({ rule, severity, measured, limit }) => [rule, severity, measured, limit])).toEqual([
      // 20 sticks in 7 packs, where 2 packs and one more would do; 334 ties in 4 packs, where one and one more would do;
      // 18 joiners in two packs are no more than one pack over.
      ['bought-before', 'note', 21, 9],
      ['bought-before', 'note', 400, 200],
      ['bought-before', 'note', 1500, 1000],
    ])
  })

  test('sticks of another length are used where that is cheaper, and the finding says why', () => {
    const longer: SuppliesInput = { ...SUPPLIES, sticks: [{ length: 1800, price: '11.00' }] }
    const bill = since(of(straightOf(9000)), of(straightOf(9000, longer)))
    expect(line(bill, 'rail-stick', 1500)).toMatchObject({ required: 12, boughtBefore: 12, packs: 0 })
    expect(bill.lines.some(({ lengthMm }) => lengthMm === 1800)).toBe(false)
    expect(bill.findings).toMatchObject([{ rule: 'bought-before', measured: 12, limit: 3 }])
    expect(bill.findings[0]!.message).toContain('Using up')
  })

  test('rail and joiners of another section are of no use; ties are', () => {
    const other = { ...straightOf(3000), rail: { section: '332', material: 'brass' } }
    const bill = since(of(straightOf(3000)), of(other))
    expect(line(bill, 'rail-stick', 1500)).toMatchObject({ boughtBefore: 0, packs: 2 })
    expect(line(bill, 'joiner')).toMatchObject({ boughtBefore: 0, packs: 1 })
    expect(line(bill, 'tie')).toMatchObject({ boughtBefore: 100, packs: 0 })
  })

  test('a plan that cannot be worked out is told', () => {
    const little = straightOf(3000, { sticks: [{ length: 1500, onHand: 1, buyable: false }] })
    expect(billSince([of(little)])).toMatchObject({ ok: false, faults: [{ code: 'too-little-rail' }] })
    // With what was bought before it can.
    expect(billSince([of(straightOf(3000)), of(little)])).toMatchObject({ ok: true, bill: { findings: [] } })
  })

  const packSize = fc.integer({ min: 1, max: 12 })
  const anySupplies = fc.record({ sticks: packSize, joiners: packSize, ties: packSize, fasteners: packSize }).map(
    (packs): SuppliesInput => ({
      sticks: [
        { length: 1524, packSize: packs.sticks, price: '9.50' },
        { length: 1828.8, price: '11.20' },
      ],
      joiners: { packSize: packs.joiners, pricePerPack: '1.10' },
      ties: { packSize: packs.ties, pricePerPack: '0.40' },
      fasteners: { packSize: packs.fasteners, pricePerPack: '0.20' },
    }),
  )
  const anyTracks = fc.array(fc.tuple(fc.integer({ min: 200, max: 9000 }), fc.integer({ min: 5, max: 90 })), {
    minLength: 1,
    maxLength: 4,
  })
  const planFrom = (tracks: readonly (readonly [number, number])[], supplies: SuppliesInput): PlanInput => ({
    ...planOf([], {}, { supplies }),
    tracks: tracks.map(([mm, degrees], index) => ({
      name: String(index),
      start: { x: 0, y: index * 50_000, heading: 0 },
      elements: [straight(mm), arc(2500, degrees)],
    })),
  })

  test('in any number of steps is never more in all than at once and a pack a line, but where a finding says why', () => {
    fc.assert(
      fc.property(
        fc.array(anyTracks, { minLength: 2, maxLength: 4 }),
        anySupplies,
        anyStock,
        (steps, supplies, shed) => {
          const revisions = steps.map((tracks) => of(planFrom(tracks, supplies), shed))
          const bought = new Map<string, number>()
          const keyOf = ({ item, lengthMm }: BillLine) => `${item} ${lengthMm === null ? '' : lengthMm.toFixed(3)}`
          for (let count = 1; count <= revisions.length; count += 1) {
            const bill = since(...revisions.slice(0, count))
            const direct = since(revisions[count - 1]!)
            for (const each of bill.lines) {
              const key = keyOf(each)
              expect(each.boughtBefore).toBe(bought.get(key) ?? 0)
              bought.set(key, each.boughtBefore + pieces(each))
              const once = direct.lines.find((one) => keyOf(one) === key)
              const said = bill.findings.some(({ message }) => message.startsWith(`${each.description}:`))
              expect(bought.get(key)! > (once ? pieces(once) : 0) + each.packSize).toBe(said)
              // Enough is there for what is needed.
              expect(each.onHand + pieces(each)).toBeGreaterThanOrEqual(each.required)
            }
            // Nothing that was bought is forgotten.
            for (const [key, count] of bought) if (count > 0) expect(bill.lines.map(keyOf)).toContain(key)
          }
        },
      ),
      { numRuns: 60 },
    )
  })

  test('never costs more than to keep to the cut plan one would make at once', () => {
    fc.assert(
      fc.property(anyTracks, anyTracks, anySupplies, (before, now, supplies) => {
        const [first, second] = [of(planFrom(before, supplies)), of(planFrom(now, supplies))]
        const earlier = since(first)
        const most = since(second).lines.reduce((sum, each) => {
          const had = earlier.lines.find((one) => one.item === each.item && one.lengthMm === each.lengthMm)
          const packs = Math.ceil(Math.max(0, each.required - (had ? pieces(had) : 0)) / each.packSize)
          return sum + packs * Number(each.unitPrice)
        }, 0)
        expect(Number(since(first, second).total)).toBeLessThanOrEqual(most + 1e-6)
      }),
    )
  })

  test('of a plan that only grew, from one length of stick, needs no finding', () => {
    fc.assert(
      fc.property(anyTracks, anyTracks, fc.integer({ min: 1, max: 6 }), (before, more, size) => {
        const supplies = { ...SUPPLIES, sticks: [{ length: 1524, packSize: size, price: '9.50' }] }
        const bill = since(of(planFrom(before, supplies)), of(planFrom([...before, ...more], supplies)))
        expect(bill.findings).toEqual([])
      }),
    )
  })
})
