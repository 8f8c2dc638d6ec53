import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import type { OpenItem } from '../../src/plan/fields/field.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { SuppliesInput } from '../../src/plan/rows/supplies.ts'
import type { ElementInput, JOINED_END, TrackInput } from '../../src/plan/rows/track.ts'
import { leftOver } from '../../src/shed/after-building.ts'
import { estimateFromStock } from '../../src/shed/from-stock.ts'
import type { Stock } from '../../src/shed/stock.ts'
import { BRASS, stockOf } from '../shed/stocks.ts'
import { arc, asRead, BRASS_250, easement, estimateOf, planOf, straight } from './plans.ts'

const SUPPLIES: SuppliesInput = { sticks: [{ length: 1500, price: '10.00' }] }
const CAR = { longestCar: 600 }

/** Tracks one behind the other along x, each with its state. */
function planWith(...tracks: (Partial<TrackInput> & { elements: readonly ElementInput[] })[]): PlanInput {
  return {
    rail: BRASS_250,
    tracks: tracks.map((track, index) => ({ name: `track ${index}`, ...track })),
    supplies: SUPPLIES,
    standards: CAR,
  }
}

const line = ({ bill }: Estimate, item: string, lengthMm: number | null = null) =>
  bill.lines.find((each) => each.item === item && each.lengthMm === lengthMm)
const rules = ({ findings }: Estimate) => findings.map(({ rule }) => rule)
const at = (x: number) => ({ x, y: 0, heading: 0 })

describe('existing track', () => {
  const extension = planWith(
    { elements: [straight(3000)], state: 'existing' },
    { elements: [straight(3000)], start: at(3000) },
  )

  test('is in the answer with its geometry, and nothing of it is cut, tied, joined or bought', () => {
    const answer = estimateOf(extension)
    expect(answer.tracks).toMatchObject([
      { state: 'existing', lengthMm: 3000, ties: 0, joints: 0 },
      // By hand: 67 ties, one of them the neighbour's; two joints in its rails, two where it joins.
      { state: 'new', lengthMm: 3000, ties: 66, joints: 4 },
    ])
    expect(new Set(answer.cutting.sticks.flatMap(({ pieces }) => pieces.map(({ track }) => track)))).toEqual(
      new Set(['track 1']),
    )
    expect(line(answer, 'rail-stick', 1500)).toMatchObject({ required: 4 })
    expect(line(answer, 'joiner')).toMatchObject({ required: 4 })
    expect(line(answer, 'tie')).toMatchObject({ required: 66 })
    expect(answer.rail.lengthMm).toBe(6000)
  })

  test('is joined by the new track, whichever is listed first', () => {
    const other = estimateOf({ ...extension, tracks: extension.tracks.toReversed() })
    expect(other.tracks).toMatchObject([
      { state: 'new', ties: 66, joints: 4 },
      { state: 'existing', ties: 0, joints: 0 },
    ])
    expect(other.assumptions.filter(({ value }) => value === 'one tie fewer, two joints more')).toMatchObject([
      { field: '/tracks/0/start', reason: 'the start of track 1 runs into track 0: they share a tie and are joined' },
    ])
  })

  test('is held against the rules, and is not bent', () => {
    const tight = estimateOf(planWith({ elements: [arc(900, 90)], state: 'existing' }, { elements: [straight(2000)] }))
    expect(tight.findings).toMatchObject([{ rule: 'minimum-radius', track: 'track 0' }])
    expect(tight.bends).toEqual([])
    const open = planWith({ elements: [arc(3000, 340)], closed: true, state: 'existing' })
    expect(new Set(rules(estimateOf(open)))).toEqual(new Set(['closure']))
  })

  test('alone needs nothing at all', () => {
    const answer = estimateOf(planWith({ elements: [arc(3000, 90)], state: 'existing' }))
    expect(answer.cutting).toMatchObject({ sticks: [], sticksUsed: 0, sticksLowerBound: 0 })
    expect(answer.bill.lines.map(({ toBuy }) => toBuy)).toEqual([0, 0, 0])
  })

  test('makes a reverse curve across the join, from whichever end it comes', () => {
    // New track that turns right, on the end of existing track that turns left; drawn either way round.
    const left = arc(3000, 30)
    const right = arc(3000, 30, 'right')
    const end = { x: 1500, y: 3000 * (1 - Math.cos(Math.PI / 6)), heading: 30 }
    const onward = planWith({ elements: [left], state: 'existing' }, { elements: [right], start: end })
    expect(estimateOf(onward).findings).toMatchObject([
      { rule: 'reverse-curve', severity: 'warn', track: 'track 1', element: 0, measured: 0, limit: 600 },
    ])
    // The existing track drawn from its other end: it turns right now, and is the same track.
    const backwards = { ...end, heading: 210 }
    const turned = planWith(
      { elements: [right], start: backwards, state: 'existing' },
      { elements: [right], start: end },
    )
    expect(estimateOf(turned).findings).toMatchObject([{ rule: 'reverse-curve', track: 'track 1', measured: 0 }])
    const same = planWith({ elements: [left], state: 'existing' }, { elements: [left], start: end })
    expect(rules(estimateOf(same))).toEqual([])
  })
})

describe('lifted track', () => {
  const moved = planWith(
    { elements: [straight(3400)], state: 'lifted' },
    { elements: [straight(3000)], start: { x: 0, y: 900, heading: 0 } },
  )

  test('gives its sticks, joiners and ties to the new track, and says what is assumed', () => {
    const answer = estimateOf(moved)
    expect(answer.tracks[0]).toMatchObject({ state: 'lifted', ties: 0, joints: 0 })
    // By hand: each rail of 3400 mm is two sticks of 1500 mm and 400 mm: two joints; 76 ties.
    expect(line(answer, 'rail-stick', 1500)).toMatchObject({ required: 4, onHand: 4, toBuy: 0 })
    expect(line(answer, 'joiner')).toMatchObject({ required: 2, onHand: 4, toBuy: 0 })
    expect(line(answer, 'tie')).toMatchObject({ required: 67, onHand: 76, toBuy: 0 })
    expect(line(answer, 'fastener')).toMatchObject({ required: 268, onHand: 0, toBuy: 268 })
    expect(answer.assumptions).toContainEqual({
      field: '/tracks/0/state',
      value: 'on hand from track 0: 4 of 1500 mm, 2 of 400 mm; joiners: 4; ties: 76',
      reason:
        'lifted; its rails are assumed to be sticks of 1500 mm laid end to end; bent pieces are bent again; fasteners are not reused',
    })
  })

  test('is no part of the track: no finding, no join', () => {
    const answer = estimateOf(
      planWith(
        { elements: [straight(3000)], state: 'lifted' },
        { elements: [arc(500, 15)], closed: true, state: 'lifted' },
        { elements: [straight(3000)], start: at(3000) },
      ),
    )
    expect(rules(answer)).toEqual([])
    expect(answer.tracks[2]).toMatchObject({ ties: 67, joints: 2 })
  })

  test('is laid again before the shed is touched, and the rest goes into the shed', () => {
    const stock = stockOf({
      sticks: [{ ...BRASS, lengthMm: 1500, count: 9 }],
      joiners: [{ ...BRASS, count: 9 }],
      ties: 9,
    })
    const worked = estimateFromStock(moved, stock)
    if (!worked.ok) throw new Error('not worked out')
    expect(worked.taken).toEqual(stockOf())
    expect(leftOver(moved, worked.estimate)).toEqual(
      stockOf({ sticks: [{ ...BRASS, lengthMm: 400, count: 2 }], joiners: [{ ...BRASS, count: 2 }], ties: 9 }),
    )
    const longer = { ...moved, tracks: [moved.tracks[0]!, { ...moved.tracks[1]!, elements: [straight(6000)] }] }
    const more = estimateFromStock(longer, stock)
    expect(more.ok && more.taken).toEqual(
      // 8 sticks, 6 joiners, 134 ties are needed.
      stockOf({ sticks: [{ ...BRASS, lengthMm: 1500, count: 4 }], joiners: [{ ...BRASS, count: 2 }], ties: 9 }),
    )
  })

  test('alone brings everything back', () => {
    const only = planWith({ elements: [straight(3000)], state: 'lifted' })
    const worked = estimateFromStock(only, stockOf())
    expect(worked.ok && leftOver(only, worked.estimate)).toEqual(
      stockOf({ sticks: [{ ...BRASS, lengthMm: 1500, count: 4 }], joiners: [{ ...BRASS, count: 2 }], ties: 67 }),
    )
  })

  test('pieces too short to be laid are left where they fall', () => {
    const only = planWith({ elements: [straight(100)], state: 'lifted' })
    const worked = estimateFromStock(only, stockOf())
    expect(worked.ok && leftOver(only, worked.estimate)).toEqual(stockOf({ ties: 3 }))
  })

  test('loose ties are no strips: they come up, and are not counted among the strips on hand', () => {
    const plan = planWith({ elements: [straight(3000)], state: 'lifted' }, { elements: [straight(3000)] })
    const ties = { strip: { ties: 10 } }
    const answer = estimateOf({ ...plan, supplies: { ...SUPPLIES, ties } })
    // By hand: 67 ties are seven strips of ten.
    expect(line(answer, 'tie-strip')).toMatchObject({ required: 7, onHand: 0, toBuy: 7 })
    expect(line(estimateOf(plan), 'tie')).toMatchObject({ required: 67, onHand: 67, toBuy: 0 })
  })

  test('rail is neither made nor lost, whatever is lifted, laid and bought', () => {
    const state = fc.constantFrom('new', 'existing', 'lifted')
    const lengthMm = fc.integer({ min: 200, max: 7000 })
    fc.assert(
      fc.property(fc.array(fc.tuple(state, lengthMm), { minLength: 1, maxLength: 5 }), fc.nat(9), (tracks, count) => {
        const plan = planWith(
          ...tracks.map(([each, mm], index) => ({
            elements: [straight(mm)],
            state: each as TrackInput['state'],
            start: { x: 0, y: 500 * index, heading: 0 },
          })),
        )
        const stock: Stock = stockOf({ sticks: [{ ...BRASS, lengthMm: 1500, count }], ties: 10 * count })
        const worked = estimateFromStock(plan, stock)
        if (!worked.ok) throw new Error('not worked out')
        const { estimate: answer, taken } = worked
        const returned = leftOver(plan, answer)
        const railMm = ({ sticks }: Stock) => sticks.reduce((sum, stick) => sum + stick.count * stick.lengthMm, 0)
        const sum = (wanted: string) => tracks.reduce((total, [each, mm]) => total + (each === wanted ? 2 * mm : 0), 0)
        const bought = line(answer, 'rail-stick', 1500)
        const boughtMm = (bought?.packs ?? 0) * 1500
        const { wasteMm, reusableMm } = answer.cutting
        // All lifted pieces are over the shortest piece: each length here leaves none shorter that is not made up to it.
        expect(railMm(taken) + boughtMm + sum('lifted')).toBeCloseTo(
          sum('new') + (wasteMm - reusableMm) + railMm(returned),
          5,
        )
      }),
    )
  })
})

describe('an end that joins track of which the rail is known', () => {
  type TrackThere = Exclude<OpenItem<typeof JOINED_END>, boolean>
  const there = (change: Partial<TrackThere> = {}): TrackThere => ({ section: '250', material: 'brass', ...change })
  const joined = (
    start: TrackThere | true,
    elements: ElementInput[] = [straight(3000)],
    plan: Partial<PlanInput> = {},
  ) => planOf(elements, { joinsExisting: { start } }, { supplies: SUPPLIES, standards: CAR, ...plan })

  test('counts as one that is only said to join', () => {
    const [plain, known] = [estimateOf(joined(true)), estimateOf(joined(there()))]
    expect(JSON.stringify(known)).toBe(JSON.stringify(plain))
  })

  test('of another section takes a transition joiner on each rail instead of a joiner', () => {
    const transitionJoiners = { packSize: 4, pricePerPack: '6.00', onHand: 1 }
    const priced = { supplies: { ...SUPPLIES, transitionJoiners } }
    const answer = estimateOf(joined(there({ section: '332' }), [straight(3000)], priced))
    expect(line(answer, 'transition-joiner')).toMatchObject({
      required: 2,
      onHand: 1,
      toBuy: 1,
      packs: 1,
      amount: '6.00',
    })
    expect(line(answer, 'joiner')).toMatchObject({ required: 2 })
    expect(answer.tracks[0]!.joints).toBe(4)
    expect(line(estimateOf(joined(there(), [straight(3000)], priced)), 'transition-joiner')).toBeUndefined()
    const both = planOf(
      [straight(3000)],
      { joinsExisting: { start: there({ section: '332' }), end: there({ section: '215' }) } },
      { supplies: SUPPLIES },
    )
    expect(line(estimateOf(both), 'transition-joiner')).toMatchObject({ required: 4, packSize: 1, unitPrice: null })
    expect(estimateOf(both).assumptions.map(({ field }) => field)).toContain('/supplies/transitionJoiners/packSize')
  })

  test.each([
    ['aluminium', 'brass', true],
    ['brass', 'aluminium', true],
    ['brass', 'aluminum', true],
    ['stainless', 'aluminium', true],
    ['nickel-silver', 'aluminium', true],
    ['steel', 'aluminium', true],
    ['aluminium', 'aluminium', false],
    ['brass', 'nickel-silver', false],
    ['steel', 'stainless', false],
  ])('%s beside %s: a note %s', (material, beside, noted) => {
    const plan = joined(there({ material: beside }), [straight(3000)], { rail: { section: '250', material } })
    const found = estimateOf(asRead(plan)).findings.filter(({ rule }) => rule === 'mixed-metals')
    expect(found.map(({ severity, track }) => [severity, track])).toEqual(noted ? [['note', 'main']] : [])
  })

  test('a curve the other way without enough straight is a reverse curve', () => {
    const left = there({ radius: 3000, turn: 'left' })
    const found = (elements: ElementInput[], standards: PlanInput['standards'] = CAR) =>
      estimateOf(joined(left, elements, { standards })).findings.filter(({ rule }) => rule === 'reverse-curve')
    expect(found([arc(3000, 30, 'right')])).toMatchObject([
      { severity: 'warn', track: 'main', element: 0, measured: 0, limit: 600, unit: 'mm' },
    ])
    expect(found([straight(599), arc(3000, 30, 'right')])).toMatchObject([{ element: 1, measured: 599 }])
    expect(found([straight(600), arc(3000, 30, 'right')])).toEqual([])
    expect(found([arc(3000, 30, 'left')])).toEqual([])
    expect(found([straight(100)])).toEqual([])
    // The other side has no easement: eased on one side alone does not excuse it.
    expect(found([easement(300), arc(3000, 30, 'right')])).toMatchObject([{ severity: 'warn', measured: 0 }])
    // Nobody has said how much straight it takes: none at all is still too little.
    expect(found([arc(3000, 30, 'right')], {})).toMatchObject([{ measured: 0, limit: null }])
    expect(found([straight(1), arc(3000, 30, 'right')], {})).toEqual([])
  })

  test('the same at the other end', () => {
    const plan = planOf(
      [arc(3000, 30), straight(200)],
      { joinsExisting: { end: there({ radius: 2000, turn: 'right' }) } },
      { supplies: SUPPLIES, standards: CAR },
    )
    expect(estimateOf(plan).findings).toMatchObject([{ rule: 'reverse-curve', element: 0, measured: 200 }])
    expect(estimateOf(plan).findings[0]!.message).toContain('at the end of main')
  })
})
