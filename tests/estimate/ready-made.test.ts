import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BillLine, Estimate } from '../../src/estimate/answer.ts'
import { layOut } from '../../src/estimate/cutting/lay-out.ts'
import { siteOf } from '../../src/estimate/cutting/site.ts'
import { planFaults } from '../../src/estimate/faults/faults.ts'
import { preparePlan } from '../../src/estimate/plan.ts'
import { compareMaterials } from '../../src/estimate/questions/compare.ts'
import { type CoverableElements, coverableElements } from '../../src/estimate/ready-made/coverable.ts'
import { joinsOf } from '../../src/estimate/track/joins.ts'
import { layTrack } from '../../src/estimate/track/laid-track.ts'
import { billOf } from '../../src/laying/bill.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { PanelInput, SuppliesInput } from '../../src/plan/rows/supplies.ts'
import type { ElementInput, TrackInput } from '../../src/plan/rows/track.ts'
import { billSince } from '../../src/shed/bill-since.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { arc, BRASS_250, easement, estimateOf, planOf, straight } from './plans.ts'

const FT = 304.8
const RADIUS_MM = 10 * FT

const curved = (angleDeg: number, more: Partial<PanelInput> = {}): PanelInput => ({
  radius: RADIUS_MM,
  angle: angleDeg,
  ties: 20,
  price: '30.00',
  ...more,
})
const panel = (lengthMm: number, more: Partial<PanelInput> = {}): PanelInput => ({
  length: lengthMm,
  ties: 13,
  price: '9.00',
  ...more,
})

const PRICES: SuppliesInput = {
  sticks: [{ length: 5 * FT, price: '14.50' }],
  joiners: { pricePerPack: '0.90' },
  ties: { pricePerPack: '0.20' },
  fasteners: { pricePerPack: '0.02' },
}
const QUARTER = [straight(6 * FT), arc(RADIUS_MM, 90), straight(10 * FT)]

function made(
  panels: readonly PanelInput[],
  {
    elements = QUARTER,
    track = {},
    supplies = {},
    plan = {},
  }: {
    elements?: ElementInput[]
    track?: Partial<TrackInput>
    supplies?: SuppliesInput
    plan?: Partial<PlanInput>
  } = {},
): Estimate {
  return estimateOf(planOf(elements, track, { supplies: { ...PRICES, ...supplies, panels }, ...plan }))
}

const always = { supplies: { readyMade: 'always' } } as const
const line = ({ bill }: Estimate, item: BillLine['item']) => bill.lines.find((each) => each.item === item)
const required = (found: Estimate, item: BillLine['item']) => line(found, item)?.required
const covered = ({ readyMade }: Estimate) => readyMade!.stretches.map(({ element }) => element)
const degrees = ({ readyMade }: Estimate) =>
  readyMade!.stretches.map(({ pieces }) => pieces.map(({ angleDeg }) => Math.round(angleDeg! * 1e6) / 1e6))
const jointsOf = ({ joints }: Estimate, rail: 'left' | 'right') =>
  joints.filter((joint) => joint.rail === rail).map(({ stationMm }) => stationMm)

describe('an arc of ready-made pieces', () => {
  it('is made of n pieces and, where they do not fill it, one cut', () => {
    // by hand
    expect(degrees(made([curved(30)]))).toEqual([[30, 30, 30]])
    expect(made([curved(30)]).readyMade!.panels.map(({ kerfMm, offcutMm }) => [kerfMm, offcutMm])).toEqual(
      new Array(3).fill([0, 0]),
    )
    const hundred = made([curved(30)], { elements: [arc(RADIUS_MM, 100)] })
    expect(degrees(hundred)).toEqual([[30, 30, 30, 10]])
    expect(hundred.readyMade!.panels.filter(({ kerfMm }) => kerfMm > 0)).toEqual([
      expect.objectContaining({ kerfMm: 1, offcutMm: expect.closeTo((20 * Math.PI * RADIUS_MM) / 180 - 1, 6) }),
    ])
    expect(required(hundred, 'panel')).toBe(4)
  })

  it('has its joints where pieces meet, opposite each other, and one at either end', () => {
    const found = made([curved(30)])
    const ends = [0, 30, 60, 90].map((deg) => 6 * FT + (deg * Math.PI * RADIUS_MM) / 180)
    for (const rail of ['left', 'right'] as const) {
      const stations = jointsOf(found, rail)
      for (const mm of ends) expect(stations).toContainEqual(expect.closeTo(mm, 6))
      expect(stations.filter((mm) => mm > ends[0]! + 1 && mm < ends[3]! - 1)).toHaveLength(2)
    }
    expect(found.findings.map(({ rule }) => rule)).not.toContain('joints-too-near')
  })

  it('is the same turned the other way', () => {
    const left = made([curved(30)])
    const right = made([curved(30)], { elements: [straight(6 * FT), arc(RADIUS_MM, 90, 'right'), straight(10 * FT)] })
    expect(right.readyMade).toEqual(left.readyMade)
    expect(right.bill).toEqual(left.bill)
  })

  it('keeps its ordinates, comes bent, and takes no rail', () => {
    const found = made([curved(30)])
    const loose = made([])
    expect(found.bends.map(({ ordinates }) => ordinates)).toEqual(loose.bends.map(({ ordinates }) => ordinates))
    expect(found.bends.map(({ readyMade }) => readyMade)).toEqual([true, true])
    expect(loose.bends.map(({ readyMade }) => readyMade)).toEqual([false, false])
    expect(found.cutting.sticks.flatMap(({ pieces }) => pieces.flatMap(({ bends }) => bends))).toEqual([])
    expect(loose.readyMade).toBeNull()
  })

  it('closes a circle of twelve', () => {
    const ring = made([curved(30)], { elements: [arc(RADIUS_MM, 360)], track: { closed: true } })
    expect(required(ring, 'panel')).toBe(12)
    expect(required(ring, 'rail-stick')).toBeUndefined()
    expect(ring.cutting).toMatchObject({ sticks: [], cost: '0.00', provenOptimal: true })
    // by hand: twelve joints a rail, every tie with a piece
    expect(required(ring, 'joiner')).toBe(24)
    expect(required(ring, 'tie')).toBe(0)
    expect(required(ring, 'fastener')).toBe(0)
  })
})

describe('what comes with ready-made pieces', () => {
  it('is taken off the ties: those that stand on them', () => {
    const found = made([curved(30)])
    // by hand: at 45 mm from 0, those from the 41st (1845 mm) to the 147th (6615 mm) lie between 1828.8 and 6616.6
    expect(found.tracks[0]!.ties).toBe(215)
    expect(line(found, 'tie')).toMatchObject({
      required: 108,
      reasons: [
        { quantity: 215, track: 'main', text: 'under 9.66 m of track, 45 mm apart' },
        { quantity: -107, track: 'main', text: 'included with ready-made pieces' },
      ],
    })
    expect(required(found, 'fastener')).toBe(4 * 108)
  })

  it('saves the ties that joints of loose rail ask for', () => {
    const ties = { ...PRICES.ties, spacing: 44, jointTies: true }
    const elements = [straight(1800), straight(600), straight(1000)]
    const by = (joined: number) =>
      made([panel(600, { ties: joined })], { elements, supplies: { readyMade: 'always', ties, minimumPiece: 100 } })
    // by hand: joints at 600, 1200, 1800, 2400, 3000, none midway between two of the ties at 44 mm; pieces of 600 and 400
    expect(by(0).tracks[0]).toMatchObject({ ties: 78, jointTies: 5 })
    expect(by(13).tracks[0]).toMatchObject({ ties: 78, jointTies: 0 })
    expect(required(by(13), 'tie')).toBe(0)
  })

  it('is nothing with two rails alone', () => {
    const found = made([curved(30, { ties: 0 })], always)
    expect(required(found, 'tie')).toBe(215)
  })

  it('counts the tie at the very end of a track, and none that a neighbour has', () => {
    const elements = [straight(900)]
    const open = made([panel(900)], { elements, ...always })
    const joined = made([panel(900)], { elements, ...always, track: { joinsExisting: { start: true, end: true } } })
    // by hand: 21 ties from 0 to 900; joined at both ends 19 of them are its own
    expect([open.tracks[0]!.ties, required(open, 'tie')]).toEqual([21, 0])
    expect([joined.tracks[0]!.ties, required(joined, 'tie')]).toEqual([19, 0])
  })

  it('is taken off the joiners, as many as are needed at most', () => {
    const two = made([panel(600, { joiners: 2 })], { elements: [straight(1800)], ...always })
    // by hand: three pieces have two joints a rail, and bring six joiners
    expect(line(two, 'joiner')).toMatchObject({ required: 0 })
    const one = made([panel(600, { joiners: 1 })], { elements: [straight(1800)], ...always })
    expect(line(one, 'joiner')).toMatchObject({
      required: 1,
      reasons: [{ quantity: 4 }, { quantity: -3, track: null, text: 'included with ready-made pieces' }],
    })
  })
})

describe('the choice', () => {
  it('is for ready-made pieces up to the price of what they save', () => {
    const loose = made([])
    // by hand: 19.33 m of rail take 13 sticks, 9.75 m without the arc 7; joiners are the same
    expect([required(loose, 'rail-stick'), required(loose, 'joiner')]).toEqual([13, 12])
    // by hand: 6 sticks at 14.50, 107 ties at 0.20 and 428 fasteners at 0.02 are 116.96, 38.99 a piece less 0.01
    const cheap = made([curved(30, { price: '38.98' })])
    expect([required(cheap, 'panel'), required(cheap, 'rail-stick'), required(cheap, 'joiner')]).toEqual([3, 7, 12])
    expect(cheap.readyMade).toMatchObject({ choice: 'cheapest', cost: '259.48', looseCost: '259.50', loose: [{}, {}] })
    const dear = made([curved(30, { price: '38.99' })])
    expect(dear.bill).toEqual(loose.bill)
    expect(dear.readyMade).toMatchObject({ cost: '259.50', stretches: [], panels: [] })
    expect(dear.readyMade!.loose[1]).toEqual({ track: 'main', element: 1, reason: 'loose rail is cheaper' })
  })

  it('for ready-made pieces is made at any price, against them at none', () => {
    const dear = [curved(30, { price: '1000.00' })]
    expect(covered(made(dear, always))).toEqual([1])
    const never = made([curved(30, { price: '0.10' })], { supplies: { readyMade: 'never' } })
    const { readyMade, assumptions: _, ...rest } = never
    const { readyMade: none, assumptions: __, ...without } = made([])
    expect(none).toBeNull()
    expect(readyMade).toMatchObject({ stretches: [], loose: [] })
    expect(rest).toEqual(without)
  })

  it('is made for single elements too: what is on hand goes where it saves most', () => {
    // by hand: four 600 mm pieces on hand cover one of the two, and each would take a stick a rail
    const elements = [straight(1200), arc(2000, 40), straight(2400)]
    const found = made([panel(600, { onHand: 4, price: '99.00' })], { elements })
    expect(covered(found)).toEqual([2])
    expect(found.readyMade!.panels.every(({ fromStock }) => fromStock)).toBe(true)
  })

  it('for the one or the other kind of pieces is made by the bill', () => {
    const bare = curved(30, { ties: 0, price: '20.00' })
    const assembled = (price: string) => curved(30, { ties: 20, price })
    // by hand: on three pieces 107 ties and 428 fasteners are worth 29.96, 9.99 a piece less 0.01
    const usedBy = (price: string) => made([bare, assembled(price)]).readyMade!.panels.map((each) => each.panel)
    expect(usedBy('29.98')).toEqual([1, 1, 1])
    expect(usedBy('29.99')).toEqual([0, 0, 0])
  })

  it('is made by prices with as many places as their currency has, however they are written', () => {
    // by hand: 2.4 m takes 4 pieces for 9.125, 36.500 in all, or 6 for 9.5, 57.000
    const used = (price: string) =>
      made([panel(400, { price }), panel(600, { price: '9.125' })], {
        elements: [straight(2400)],
        supplies: { readyMade: 'always', currency: 'KWD' },
      })
    for (const price of ['9.5', '9.50', '9.500']) {
      expect(used(price).readyMade!.panels.map((each) => each.panel)).toEqual([1, 1, 1, 1])
      expect(line(used(price), 'panel')!.amount).toBe('36.500')
    }
  })

  it('falls on more ready-made track where the bill is the same', () => {
    // by hand: all there is on hand, so that nothing is bought either way
    const inTheShed = {
      sticks: [{ length: 5 * FT, price: '14.50', onHand: 20 }],
      joiners: { pricePerPack: '0.90', onHand: 50 },
      ties: { pricePerPack: '0.20', onHand: 500 },
      fasteners: { pricePerPack: '0.02', onHand: 2000 },
    }
    const found = made([curved(30, { onHand: 3 })], { supplies: inTheShed })
    expect(found.readyMade).toMatchObject({ cost: '0.00', looseCost: '0.00' })
    expect(covered(found)).toEqual([1])
    // two pieces make 60° or half of them 30°
    const elements = [arc(RADIUS_MM, 30), straight(1000), arc(RADIUS_MM, 60), straight(1000), arc(RADIUS_MM, 30)]
    const scarce = [curved(30, { onHand: 2, buyable: false })]
    expect(covered(made(scarce, { elements: elements.slice(0, 3), supplies: inTheShed }))).toEqual([2])
    expect(covered(made([curved(30, { onHand: 3, buyable: false })], { elements, supplies: inTheShed }))).toHaveLength(
      2,
    )
  })

  it('without prices falls on what is on hand', () => {
    const unpriced = made([curved(30, { price: undefined, onHand: 2 })])
    expect(covered(unpriced)).toEqual([])
    expect(unpriced.readyMade!.loose[1]!.reason).toBe('its pieces have no price')
    expect(covered(made([curved(30, { price: undefined, onHand: 3 })]))).toEqual([1])
    const railWithout = { supplies: { sticks: [{ length: 5 * FT }] } }
    expect(made([curved(30)], railWithout).readyMade!.loose[1]!.reason).toBe('loose rail has no price to compare with')
    expect(covered(made([curved(30, { onHand: 3 })], railWithout))).toEqual([1])
  })

  it('always covers as many as the pieces on hand do', () => {
    const elements = [arc(RADIUS_MM, 60), straight(500), arc(RADIUS_MM, 60, 'right')]
    const found = made([curved(30, { onHand: 3, buyable: false })], { elements, ...always })
    expect(covered(found)).toEqual([0])
    expect(found.readyMade!.loose).toEqual([
      { track: 'main', element: 1, reason: 'no straight piece is listed' },
      { track: 'main', element: 2, reason: 'there are not enough pieces on hand' },
    ])
  })

  it('makes track that there is not rail enough for', () => {
    const short = { sticks: [{ length: 5 * FT, onHand: 7, buyable: false }] }
    expect(covered(made([curved(30)], { supplies: { ...short, readyMade: 'always' } }))).toEqual([1])
  })
})

describe('elements that stay loose rail', () => {
  const reasons = (found: Estimate) => found.readyMade!.loose.map(({ element, reason }) => [element, reason])

  it('are named with the reason', () => {
    const elements = [straight(1000), easement(500), arc(RADIUS_MM + 30, 30), easement(500), straight(1000)]
    expect(reasons(made([curved(30)], { elements }))).toEqual([
      [0, 'no straight piece is listed'],
      [1, 'an easement has no constant radius'],
      [2, 'no piece has a radius of 3078 mm; the nearest is 3048 mm'],
      [3, 'an easement has no constant radius'],
      [4, 'no straight piece is listed'],
    ])
    expect(reasons(made([panel(600)], { elements }))).toContainEqual([2, 'no curved piece is listed'])
  })

  it('are those in which no joint may lie', () => {
    const keepOut = [{ from: 3000, to: 3500, reason: 'footbridge' }]
    const found = made([curved(30)], { ...always, track: { keepOut } })
    expect(reasons(found)[1]).toEqual([
      1,
      'no joint is allowed between 3000 mm and 3500 mm (footbridge), and pieces would have one there',
    ])
    const beside = made([curved(30)], { ...always, track: { keepOut: [{ from: 0, to: 6 * FT }] } })
    expect(covered(beside)).toEqual([1])
  })
})

describe('a break', () => {
  it('within an element makes two stretches of it, and keeps its joint', () => {
    const found = made([panel(600)], {
      elements: [straight(3000)],
      ...always,
      track: { breaks: [{ at: 1800, kind: 'insulated' }] },
    })
    expect(found.readyMade!.stretches.map(({ fromMm, toMm, pieces }) => [fromMm, toMm, pieces.length])).toEqual([
      [0, 1800, 3],
      [1800, 3000, 2],
    ])
    expect(found.joints.filter(({ kind }) => kind === 'insulated').map(({ stationMm }) => stationMm)).toEqual([
      1800, 1800,
    ])
    expect(required(found, 'insulated-joiner')).toBe(2)
    // by hand: 600, 1200 and 2400 on either rail
    expect(required(found, 'joiner')).toBe(6)
  })
})

describe('on a grade', () => {
  it('what the slope adds is left open where it is little', () => {
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 1800, elevation: 36 },
    ]
    const found = made([panel(600)], { elements: [straight(1800)], ...always, track: { gradeLine } })
    // closed form: 1800·(√(1 + 0.02²) − 1)
    expect(found.readyMade!.stretches[0]!.leftOpenMm).toBeCloseTo(1800 * (Math.sqrt(1.0004) - 1), 9)
    expect(required(found, 'panel')).toBe(3)
    expect(jointsOf(found, 'left')).toEqual([expect.closeTo(600, 6), expect.closeTo(1200, 6)])
  })
})

describe('in the weather', () => {
  const plan = { climate: { laying: 15, coldest: -10, hottest: 35, sunAllowance: 20 } }

  it('whole pieces are laid with a gap, so that the last is cut', () => {
    const found = made([panel(600)], { elements: [straight(3000), straight(500)], plan, ...always })
    const open = 1 + 20e-6 * 40
    const [stretch] = found.readyMade!.stretches
    // closed form: a piece L takes up L·(1 + α·ΔT) from joint to joint; brass 20e-6 per K
    for (const { fromMm, toMm, lengthMm, whole } of stretch!.pieces.slice(1, -1)) {
      expect(toMm - fromMm).toBeCloseTo(lengthMm * open, 6)
      expect([whole, lengthMm]).toEqual([true, 600])
    }
    expect(stretch!.pieces.filter(({ whole }) => !whole)).toHaveLength(1)
    for (const { gapMm, stationMm } of found.joints.filter((each) => each.stationMm > 700 && each.stationMm < 2300))
      expect([stationMm, gapMm]).toEqual([stationMm, expect.closeTo(600 * 20e-6 * 40, 6)])
  })
})

describe('square joints of loose rail', () => {
  it('lie opposite each other beside ready-made track as well', () => {
    const found = made([curved(30)], { ...always, plan: { joints: { arrangement: 'square' } } })
    expect(jointsOf(found, 'left')).toEqual(jointsOf(found, 'right').map((mm) => expect.closeTo(mm, 6)))
    expect(found.findings.map(({ rule }) => rule)).not.toContain('joints-not-square')
  })
})

describe('a comparison of metals', () => {
  it('has ready-made track only in the metal it is of', () => {
    const plan = planOf(QUARTER, {}, { supplies: { ...PRICES, panels: [curved(30)] } })
    const result = compareMaterials({ plan, choices: [{ material: 'brass' }, { material: 'stainless' }] })
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    const [brass, stainless] = result.comparison.materials
    expect(brass!.forming).toBeNull()
    expect(stainless!.forming).not.toBeNull()
    expect(result.comparison.assumptions).toContainEqual({
      field: '/materials/1',
      value: 'no ready-made track',
      reason: 'the ready-made track in the plan is of its own metal',
    })
  })
})

describe('what more has to be bought', () => {
  it('counts ready-made pieces that were bought, and keeps to them', () => {
    const before = planOf(QUARTER, {}, { supplies: { ...PRICES, panels: [curved(30)] } })
    const now = planOf([straight(6 * FT), arc(RADIUS_MM, 120), straight(10 * FT)], {}, { supplies: before.supplies })
    const result = billSince([
      { plan: before, stock: NOTHING },
      { plan: now, stock: NOTHING },
    ])
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    // by hand: 120° are four pieces of 30°, of which three were bought; the rail is the same
    expect(result.bill.lines.find(({ item }) => item === 'panel')).toMatchObject({
      boughtBefore: 3,
      required: 4,
      packs: 1,
    })
    expect(result.bill.lines.find(({ item }) => item === 'rail-stick')).toMatchObject({ packs: 0 })
  })
})

describe('faults', () => {
  it('are pieces of the same size twice, and curves that leave the inner rail no radius', () => {
    const panels: PanelInput[] = [
      curved(30),
      curved(30, { ties: 24 }),
      curved(30, { ties: 0 }),
      { radius: 20, angle: 180 / Math.PI },
    ]
    const faults = planFaults({ rail: BRASS_250, tracks: [], supplies: { panels } })
    expect(faults.map(({ path, code }) => [path.join('/'), code])).toEqual([
      ['supplies/panels/1/angle', 'duplicate-length'],
      ['supplies/panels/3/radius', 'out-of-range'],
    ])
  })
})

/** Every mix of a plan's elements, each of loose rail or of one of the kinds of pieces that fit it. */
function everyMix({ coverable }: CoverableElements): (number | null)[][] {
  return coverable.reduce<(number | null)[][]>(
    (mixes, { kinds }) => mixes.flatMap((mix) => [null, ...kinds].map((option) => [...mix, option])),
    [[]],
  )
}

describe('small plans', () => {
  const anyElement = fc.oneof(
    fc.integer({ min: 3, max: 40 }).map((tenths) => straight(100 * tenths)),
    fc
      .record({ radius: fc.constantFrom(RADIUS_MM, 2000), fives: fc.integer({ min: 2, max: 24 }) })
      .map(({ radius, fives }) => arc(radius, 5 * fives)),
  )
  const anyPanels = fc
    .tuple(
      ...[15, 40, 15].map((least) =>
        fc.record({
          price: fc.integer({ min: 100 * least, max: 200 * least }).map((cents) => (cents / 100).toFixed(2)),
          onHand: fc.integer({ min: 0, max: 4 }),
        }),
      ),
    )
    .map((more) => [panel(600, more[0]), curved(30, more[1]), curved(15, { ...more[2], ties: 0 })])

  it('get the cheapest of all mixes', () => {
    fc.assert(
      fc.property(fc.array(anyElement, { minLength: 1, maxLength: 3 }), anyPanels, (elements, panels) => {
        const input = planOf(elements, {}, { supplies: { ...PRICES, panels } })
        const { plan } = preparePlan(input)
        const drawn = plan.tracks.map((track) => layTrack(track, plan))
        const site = siteOf(plan, joinsOf(drawn, plan), { name: 'rail', massPerMetreKg: null }, () => false)
        const fitting = coverableElements(site.laid, plan)
        const costs = everyMix(fitting).map((mix) => {
          const laid = layOut(site, fitting, mix, 'quick')
          return laid.ok ? Number(billOf(laid.laidOut.lines, plan.supplies).total) : Number.POSITIVE_INFINITY
        })
        expect(Number(estimateOf(input).readyMade!.cost)).toBeCloseTo(Math.min(...costs), 9)
      }),
      { numRuns: 40, seed: 45 },
    )
  })
})

describe('any plan with ready-made track', () => {
  const anyElement = fc.oneof(
    fc.integer({ min: 100, max: 4000 }).map(straight),
    fc
      .record({ radius: fc.constantFrom(RADIUS_MM, 2000), angle: fc.integer({ min: 5, max: 120 }), left: fc.boolean() })
      .map(({ radius, angle, left }) => arc(radius, angle, left ? 'left' : 'right')),
  )
  const anyPrice = fc.integer({ min: 100, max: 9000 }).map((cents) => (cents / 100).toFixed(2))
  const anyPanels = fc
    .record({
      prices: fc.array(anyPrice, { minLength: 3, maxLength: 3 }),
      onHand: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 3, maxLength: 3 }),
    })
    .map(({ prices, onHand }) =>
      [panel(600), curved(30), curved(15)].map((each, n) => ({ ...each, price: prices[n], onHand: onHand[n] })),
    )

  it('has all its rail, every piece and every joint, and costs no more than loose rail', () => {
    fc.assert(
      fc.property(
        fc.array(anyElement, { minLength: 1, maxLength: 4 }),
        anyPanels,
        fc.constantFrom('cheapest' as const, 'always' as const),
        (elements, panels, readyMade) => {
          const found = made(panels, { elements, supplies: { readyMade } })
          const answer = found.readyMade!
          const { tracks, cutting, joints } = found
          for (const rail of ['left', 'right'] as const) {
            const bySticks = cutting.sticks
              .flatMap(({ pieces }) => pieces.filter((each) => each.rail === rail))
              .reduce((sum, { lengthMm }) => sum + lengthMm, 0)
            const byPieces = [...new Set(answer.stretches.map(({ element }) => element))].reduce(
              (sum, element) => sum + tracks[0]!.elements[element]!.rails[rail].lengthMm,
              0,
            )
            expect(bySticks + byPieces).toBeCloseTo(tracks[0]!.rails[rail].lengthMm, 6)
          }
          for (const { fromMm, toMm, leftOpenMm, pieces } of answer.stretches)
            expect(pieces.reduce((sum, { lengthMm }) => sum + lengthMm, leftOpenMm)).toBeCloseTo(toMm - fromMm, 6)
          for (const { lengthMm, kerfMm, offcutMm, pieces } of answer.panels)
            expect(pieces.reduce((sum, each) => sum + each.lengthMm, kerfMm + offcutMm)).toBeCloseTo(lengthMm, 6)
          const counted = found.bill.lines.filter(({ item }) => item === 'panel')
          expect(counted.reduce((sum, each) => sum + each.required, 0)).toBe(answer.panels.length)
          // derived: each stretch of n pieces, and each stick, has one joint a rail fewer than pieces
          const piecesLaid =
            2 * answer.stretches.reduce((sum, { pieces }) => sum + pieces.length, 0) +
            cutting.sticks.reduce((sum, { pieces }) => sum + pieces.length, 0)
          expect(joints).toHaveLength(piecesLaid - 2)
          for (const { reasons, required: needed } of found.bill.lines)
            expect(reasons.reduce((sum, { quantity }) => sum + quantity, 0)).toBe(needed)
          if (readyMade === 'cheapest') expect(Number(answer.cost)).toBeLessThanOrEqual(Number(answer.looseCost))
          expect(answer.stretches.length + answer.loose.length).toBe(elements.length)
        },
      ),
      { numRuns: 40 },
    )
  })
})
