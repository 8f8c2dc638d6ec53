import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { PanelInput, SuppliesInput } from '../../src/plan/rows/supplies.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { leftOver } from '../../src/shed/after-building.ts'
import { estimateFromStock } from '../../src/shed/from-stock.ts'
import { minus, type Stock } from '../../src/shed/stock.ts'
import { arc, planOf, straight } from '../estimate/plans.ts'
import { anyStock, BRASS, curvedPanel, stockOf, straightPanel } from './stocks.ts'

const RADIUS_MM = 2500
const piece = (lengthMm: number, more: Partial<PanelInput> = {}): PanelInput => ({ length: lengthMm, ...more })
const curve = (angleDeg: number, more: Partial<PanelInput> = {}): PanelInput => ({
  radius: RADIUS_MM,
  angle: angleDeg,
  ...more,
})
const plan = (elements: ElementInput[], supplies: SuppliesInput): PlanInput =>
  planOf(elements, {}, { supplies: { sticks: [{ length: 1500, price: '10.00' }], ...supplies } })

function drawn(of: PlanInput, stock: Stock): { estimate: Estimate; taken: Stock; returned: Stock } {
  const result = estimateFromStock(of, stock)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return { ...result, returned: leftOver(result.stocked, result.estimate) }
}

const linesOf = ({ bill }: Estimate, item: string) => bill.lines.filter((line) => line.item === item)
const said = ({ assumptions }: Estimate) =>
  assumptions
    .filter(({ reason }) => reason === 'in the shed and not reserved for another project')
    .map(({ field, value }) => [field, value] as const)

describe('ready-made pieces of the shed', () => {
  test('are on hand for a plan that lists them and leaves open what is', () => {
    const listed = plan([straight(3000)], {
      panels: [piece(600, { ties: 13, price: '30.00', packSize: 4 })],
      readyMade: 'always',
    })
    const { estimate, taken, returned } = drawn(listed, stockOf({ panels: [straightPanel(600, 13, 3)], ties: 9 }))
    // By hand: five pieces, three there, two out of a pack of four; they bring all ties.
    expect(linesOf(estimate, 'panel')).toMatchObject([{ required: 5, onHand: 3, toBuy: 2, packs: 1 }])
    expect(said(estimate)).toEqual([
      ['/supplies/panels/0/onHand', '3'],
      ['/supplies/ties/onHand', '9'],
    ])
    expect(taken).toEqual(stockOf({ panels: [straightPanel(600, 13, 3)] }))
    expect(returned).toEqual(stockOf({ panels: [straightPanel(600, 13, 2)] }))
  })

  test('are left alone where the plan states what is on hand, 0 too', () => {
    for (const onHand of [0, 7]) {
      const stated = plan([straight(3000)], { panels: [piece(600, { ties: 13, onHand })], readyMade: 'always' })
      const { estimate, taken } = drawn(stated, stockOf({ panels: [straightPanel(600, 13, 3)] }))
      expect(linesOf(estimate, 'panel')).toMatchObject([{ required: 5, onHand }])
      expect(taken).toEqual(stockOf())
    }
  })

  test('that no plan lists are not to be bought, and are used where the plan asks for ready-made track', () => {
    const elements = [straight(1200), arc(RADIUS_MM, 60)]
    const stock = stockOf({ panels: [straightPanel(600, 13, 4), curvedPanel(30, 24, 2)] })
    for (const readyMade of ['always', 'cheapest'] as const) {
      const { estimate, taken } = drawn(plan(elements, { readyMade }), stock)
      expect(linesOf(estimate, 'panel')).toMatchObject([
        { required: 2, onHand: 4, toBuy: 0 },
        { required: 2, onHand: 2, toBuy: 0 },
      ])
      expect(linesOf(estimate, 'rail-stick')).toEqual([])
      expect(said(estimate)).toEqual([
        ['/supplies/panels/0/onHand', '4 of straight track, 600 mm (1 ft 11-5/8 in), with 13 ties, none to be bought'],
        [
          '/supplies/panels/1/onHand',
          '2 of curved track, 16 ft 4-7/8 in in diameter (R 2500 mm), 30°, with 24 ties, none to be bought',
        ],
      ])
      expect(taken.panels).toEqual([straightPanel(600, 13, 2), { ...curvedPanel(30, 24, 2), lengthMm: 1308.996939 }])
    }
  })

  test('are nothing to a plan that says nothing of them, or wants none', () => {
    const elements = [straight(1200), arc(RADIUS_MM, 60)]
    const panels = [straightPanel(600, 13, 4), curvedPanel(30, 24, 2)]
    for (const supplies of [{}, { readyMade: 'never' }, { readyMade: 'never', panels: [piece(600)] }] as const) {
      const of = plan(elements, supplies)
      expect(drawn(of, stockOf({ panels, ties: 20 }))).toEqual(drawn(of, stockOf({ ties: 20 })))
    }
  })

  test('are told apart by rail, size and ties', () => {
    const listed = plan([straight(1200)], {
      panels: [piece(600, { ties: 13, price: '9.00' })],
      readyMade: 'always',
    })
    const others = [
      { ...straightPanel(600, 13, 9), section: '332' },
      { ...straightPanel(600, 13, 9), material: 'aluminium' },
      straightPanel(600.1, 13, 9),
      straightPanel(600, 12, 9),
      curvedPanel(30, 13, 9),
    ]
    const { estimate, taken } = drawn(listed, stockOf({ panels: others }))
    // Those of another length are of use all the same, cut; those with other ties are not what the plan lists.
    expect(said(estimate).map(([field]) => field)).toEqual(['/supplies/panels/1/onHand'])
    expect(taken.panels).toEqual([straightPanel(600.1, 13, 2)])
    // Two rails alone are another kind.
    const bare = drawn(listed, stockOf({ panels: [straightPanel(600, 0, 2)] }))
    expect(linesOf(bare.estimate, 'panel')).toMatchObject([{ required: 2, onHand: 2, toBuy: 0 }])
    expect(bare.taken.panels).toEqual([straightPanel(600, 0, 2)])
  })

  test('that are not listed are offered in the four longest sizes of each curve that the plan has', () => {
    const sizes = [900, 800, 700, 600, 500, 400].map((lengthMm) => straightPanel(lengthMm, 9, 1))
    const bare = [900, 300].map((lengthMm) => straightPanel(lengthMm, 0, 1))
    const otherRadius = { ...curvedPanel(30, 24, 5), radiusMm: 2400 }
    const of = plan([straight(1200)], { panels: [piece(400, { ties: 9 })], readyMade: 'cheapest' })
    const { estimate } = drawn(of, stockOf({ panels: [...sizes, ...bare, otherRadius, curvedPanel(30, 24, 5)] }))
    expect(said(estimate).map(([field, value]) => `${field} ${value.replace(/ \(.*\)/, '')}`)).toEqual([
      '/supplies/panels/1/onHand 1 of straight track, 900 mm, with 9 ties, none to be bought',
      '/supplies/panels/2/onHand 1 of straight track, 800 mm, with 9 ties, none to be bought',
      '/supplies/panels/3/onHand 1 of straight track, 700 mm, with 9 ties, none to be bought',
      '/supplies/panels/4/onHand 1 of straight track, 600 mm, with 9 ties, none to be bought',
      '/supplies/panels/0/onHand 1',
      '/supplies/panels/5/onHand 1 of straight track, 900 mm, two rails, none to be bought',
      '/supplies/panels/6/onHand 1 of straight track, 300 mm, two rails, none to be bought',
    ])
  })

  test('leave what is cut off them, with its share of the ties, where it is long enough', () => {
    const panels = [piece(600, { ties: 13, price: '9.00' }), curve(30, { ties: 24, price: '30.00' })]
    const of = (minimumPieceMm: number) =>
      drawn(
        plan([straight(1000), arc(RADIUS_MM, 45)], { panels, readyMade: 'always', minimumPiece: minimumPieceMm }),
        stockOf(),
      )
    // By hand: 600 − 400 − 1 = 199 mm keep ⌊13 · 199/600⌋ = ⌊4.3⌋ ties; of 30° 15° less 1 mm of kerf are left, by hand
    // 1 mm = 0.022918° of 2500 mm, with ⌊24 · 14.977/30⌋ = ⌊11.98⌋ ties.
    const straightLeft = straightPanel(199, 4, 1)
    const curvedLeft = {
      ...BRASS,
      ...{ radiusMm: RADIUS_MM, angleDeg: expect.closeTo(14.977082, 6), lengthMm: expect.closeTo(653.49847, 5) },
      ...{ ties: 11, count: 1 },
    }
    expect(of(150).returned.panels).toEqual([straightLeft, curvedLeft])
    expect(of(200).returned.panels).toEqual([curvedLeft])
    const own = { height: 6.3, headWidth: 2.8, footWidth: 5, webThickness: 1.2 }
    const unkept = plan([straight(1000)], { panels, readyMade: 'always' })
    expect(drawn({ ...unkept, rail: { section: own, material: 'brass' } }, stockOf()).returned).toEqual(stockOf())
  })

  test('that were left over are used by the next plan', () => {
    const panels = [piece(600, { ties: 13, price: '9.00' })]
    const { returned } = drawn(plan([straight(1000)], { panels, readyMade: 'always' }), stockOf())
    const next = drawn(plan([straight(199)], { readyMade: 'always' }), returned)
    expect(next.taken).toEqual(stockOf({ panels: [straightPanel(199, 4, 1)] }))
    expect(next.returned).toEqual(stockOf())
  })

  test('are never more than there are, and neither made nor lost', () => {
    const anyPlan = fc
      .record({
        lengths: fc.array(fc.integer({ min: 300, max: 2500 }), { minLength: 1, maxLength: 2 }),
        degrees: fc.integer({ min: 10, max: 70 }),
        packSize: fc.integer({ min: 1, max: 4 }),
        readyMade: fc.constantFrom('always' as const, 'cheapest' as const),
        ties: fc.constantFrom(0, 13),
        minimumPieceMm: fc.constantFrom(0, 150, 300),
      })
      .map(({ lengths, degrees, packSize, readyMade, ties, minimumPieceMm }) =>
        plan([...lengths.map(straight), arc(RADIUS_MM, degrees)], {
          panels: [piece(600, { ties, packSize, price: '9.00' }), curve(30, { ties: 24, packSize, price: '20.00' })],
          readyMade,
          minimumPiece: minimumPieceMm,
        }),
      )
    fc.assert(
      fc.property(anyPlan, anyStock, (of, stock) => {
        const { estimate, taken, returned } = drawn(of, stock)
        minus(stock, taken)
        const used = estimate.readyMade!.panels
        const mm = (rows: readonly { lengthMm: number; count: number }[]) =>
          rows.reduce((sum, { lengthMm, count }) => sum + lengthMm * count, 0)
        const bought = linesOf(estimate, 'panel').map(({ description, packs, packSize }) => ({
          lengthMm: used.find(({ name }) => name === description)!.lengthMm,
          count: packs * packSize,
        }))
        const laidOrLostMm = used.reduce((sum, { pieces, kerfMm, offcutMm }) => {
          const tooShort = offcutMm < of.supplies!.minimumPiece! - 1e-6
          const cut = pieces.reduce((all, { lengthMm }) => all + lengthMm, 0)
          return sum + cut + kerfMm + (tooShort ? offcutMm : 0)
        }, 0)
        expect(mm(taken.panels) + mm(bought)).toBeCloseTo(laidOrLostMm + mm(returned.panels), 3)
      }),
      { numRuns: 40 },
    )
  })
})
