import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { arc, BRASS_250, easement, estimateOf, planOf, straight } from './plans.ts'

/** By hand: code 250 has a head of 0.112 in = 2.8448 mm, so the rails stand 47.8448 mm apart at 45 mm gauge. */
const RAILS_APART_MM = 45 + 0.112 * 25.4
const RAD = Math.PI / 180

describe('a curve between two straights, by hand', () => {
  const answer = estimateOf(
    planOf(
      [straight(1828.8), arc(2743.2, 45, 'left'), straight(1200)],
      { start: { x: 100, y: -50, heading: 350 } },
      {
        supplies: {
          sticks: [{ length: 1524, price: '14.50', onHand: 2 }],
          joiners: { packSize: 10, pricePerPack: '9.00', onHand: 3 },
        },
      },
    ),
  )
  const track = answer.tracks[0]!

  it('length, turn and end', () => {
    const arcMm = 2743.2 * 45 * RAD
    expect(track.lengthMm).toBeCloseTo(1828.8 + arcMm + 1200, 9)
    expect(track.turnedDeg).toBeCloseTo(45, 12)
    expect(track.end.headingDeg).toBeCloseTo(35, 9)
    expect(track.start).toEqual({ xMm: 100, yMm: -50, headingDeg: expect.closeTo(350, 9), elevationMm: 0 })
    // by hand: centre of the arc 2743.2 to the left of the end of the first straight
    const heading = 350 * RAD
    const [x1, y1] = [100 + 1828.8 * Math.cos(heading), -50 + 1828.8 * Math.sin(heading)]
    const [cx, cy] = [x1 - 2743.2 * Math.sin(heading), y1 + 2743.2 * Math.cos(heading)]
    const [x2, y2] = [cx + 2743.2 * Math.sin(35 * RAD), cy - 2743.2 * Math.cos(35 * RAD)]
    expect(track.end.xMm).toBeCloseTo(x2 + 1200 * Math.cos(35 * RAD), 6)
    expect(track.end.yMm).toBeCloseTo(y2 + 1200 * Math.sin(35 * RAD), 6)
  })

  it('rails: 2·L together, (gauge + head)·Δ apart', () => {
    const { left, right } = track.rails
    expect(left.lengthMm + right.lengthMm).toBeCloseTo(2 * track.lengthMm, 8)
    expect(right.lengthMm - left.lengthMm).toBeCloseTo(RAILS_APART_MM * 45 * RAD, 9)
    expect(track.elements[1]).toMatchObject({ radiusMm: 2743.2, turn: 'left', angleDeg: expect.closeTo(45, 12) })
    expect(track.elements[1]!.rails.left.radiusMm).toBeCloseTo(2743.2 - RAILS_APART_MM / 2, 9)
    expect(track.elements[0]!.rails.right).toEqual({ lengthMm: 1828.8, radiusMm: null })
    expect(track.elements[0]).toMatchObject({ turn: null, radiusMm: null, angleDeg: 0 })
  })

  it('bends: outer rail first, measured on the concave face', () => {
    expect(answer.bends.map(({ rail, side, turn }) => [rail, side, turn])).toEqual([
      ['outer', 'right', 'left'],
      ['inner', 'left', 'left'],
    ])
    const [outer, inner] = answer.bends
    expect(outer!.radiusMm).toBeCloseTo(2743.2 + RAILS_APART_MM / 2, 9)
    expect(outer!.measuredRadiusMm).toBeCloseTo(2743.2 + 45 / 2, 9)
    expect(inner!.measuredRadiusMm).toBeCloseTo(2743.2 - 45 / 2 - 0.112 * 25.4, 9)
    const [short] = outer!.ordinates
    // closed form M = r − √(r² − (c/2)²)
    expect(short).toMatchObject({ chordMm: 300 })
    expect(short!.midMm).toBeCloseTo(2765.7 - Math.sqrt(2765.7 ** 2 - 150 ** 2), 8)
  })

  it('joints, ties and the bill', () => {
    // by hand: L = 5183.3; ⌊5183.3/45⌋ + 1 = 116 ties; each rail 3 sticks and a remainder of 592–630: 6 joints
    expect(track).toMatchObject({ ties: 116, tieSpacingMm: 45, joints: 6 })
    const lines = Object.fromEntries(answer.bill.lines.map((line) => [line.item, line]))
    expect(lines['rail-stick']).toMatchObject({
      lengthMm: 1524,
      required: 7,
      onHand: 2,
      toBuy: 5,
      packs: 5,
      unitPrice: '14.50',
      amount: '72.50',
    })
    expect(lines.joiner).toMatchObject({ required: 6, onHand: 3, toBuy: 3, packs: 1, amount: '9.00' })
    expect(lines.tie).toMatchObject({ required: 116, amount: null, unitPrice: null })
    expect(lines.fastener).toMatchObject({ required: 464, amount: null })
    expect(answer.bill).toMatchObject({ currency: 'USD', total: '81.50', unpricedLines: 2 })
  })

  it('mass of the rail', () => {
    // by hand: foot 5.6896 × 1.11125 + web 0.6985 × 3.39725 + head 2.8448 × 1.8415 = 13.9342 mm², brass 8530 kg/m³
    expect(answer.rail.massPerMetreKg).toBeCloseTo(13.9342e-6 * 8530, 6)
    expect(answer.rail.lengthMm).toBeCloseTo(2 * track.lengthMm, 8)
    expect(answer.rail.massKg).toBeCloseTo((answer.rail.massPerMetreKg! * 2 * track.lengthMm) / 1000, 9)
  })
})

it('a grade makes each rail √(plan² + rise²) long, stations stay level', () => {
  const { tracks } = estimateOf(
    planOf([straight(1000), arc(2000, 90), straight(500)], {
      gradeLine: [
        { at: 0, elevation: 0 },
        { at: 2000, elevation: 60 },
      ],
    }),
  )
  const track = tracks[0]!
  const arcMm = Math.PI * 1000
  expect(track.lengthMm).toBeCloseTo(1500 + arcMm, 9)
  // by hand: 3 % for the first 2000 mm, 1000 mm of it on the arc
  const insideRatio = (2000 - RAILS_APART_MM / 2) / 2000
  expect(track.rails.left.lengthMm).toBeCloseTo(
    Math.hypot(1000, 30) + Math.hypot(1000 * insideRatio, 30) + (arcMm - 1000) * insideRatio + 500,
    8,
  )
  expect(track.end.elevationMm).toBe(60)
  expect(track.grades).toEqual([
    { fromMm: 0, toMm: 2000, gradePct: expect.closeTo(3, 9) },
    { fromMm: 2000, toMm: track.lengthMm, gradePct: 0 },
  ])
})

it('a circle of more than one turn stays what it is', () => {
  const track = estimateOf(planOf([arc(1200, 405)])).tracks[0]!
  expect(track.turnedDeg).toBeCloseTo(405, 9)
  expect(track.end.headingDeg).toBeCloseTo(45, 9)
  expect(track.rails.right.lengthMm - track.rails.left.lengthMm).toBeCloseTo(RAILS_APART_MM * 405 * RAD, 8)
})

it('closed track: closing joints, ties spread evenly, closure answered', () => {
  const quarter = [straight(1000), arc(1200, 90)]
  const track = estimateOf(planOf([...quarter, ...quarter, ...quarter, ...quarter], { closed: true })).tracks[0]!
  // by hand: L = 4000 + 2400π = 11539.82; ⌈L/45⌉ = 257
  expect(track.ties).toBe(257)
  expect(track.tieSpacingMm).toBeCloseTo(track.lengthMm / 257, 12)
  expect(track.closure!.gapMm).toBeLessThan(1e-9)
  expect(track.closure!.headingDeg).toBeCloseTo(0, 9)
  // by hand: rails of 11389.5 and 11690.1 in 1524s: 8 pieces each, 14 joints + 2 that close
  expect(track.joints).toBe(16)
})

it('ends that join existing track share a tie and take two joiners', () => {
  const plain = estimateOf(planOf([straight(4500)])).tracks[0]!
  const joined = estimateOf(planOf([straight(4500)], { joinsExisting: { start: true, end: true } }))
  expect(plain).toMatchObject({ ties: 101, joints: 4 })
  expect(joined.tracks[0]).toMatchObject({ ties: 99, joints: 8 })
  expect(joined.assumptions.filter(({ field }) => field.startsWith('/tracks/0/joinsExisting'))).toHaveLength(2)
})

it('tracks of the plan that run into each other share a tie and are joined, counted once', () => {
  const first = { name: 'a', elements: [straight(4500)] }
  const meeting = { name: 'b', start: { x: 4501, heading: 0 }, elements: [straight(450)] }
  const headOn = { name: 'c', start: { x: 9451, heading: 180 }, elements: [straight(4500)] }
  const beside = { name: 'd', start: { x: 0, heading: 0 }, elements: [straight(450)] }
  // Sticks that make each rail by themselves, so that no joint is there for the sake of rail saved.
  const sticks = [{ length: 1500 }, { length: 450 }]
  const tracksOfPlan = [first, meeting, headOn, beside]
  const { tracks, assumptions } = estimateOf({ rail: BRASS_250, tracks: tracksOfPlan, supplies: { sticks } })
  expect(tracks.map(({ ties, joints }) => [ties, joints])).toEqual([
    [101, 4],
    [10, 2],
    [100, 6],
    [11, 0],
  ])
  expect(assumptions.filter(({ value }) => value.startsWith('one tie fewer'))).toHaveLength(2)
})

it('bend marks lie on the pieces', () => {
  const { cutting, tracks } = estimateOf(planOf([straight(1000), arc(2000, 60, 'right'), straight(1000)]))
  const left = cutting.sticks.flatMap(({ pieces }) => pieces).filter(({ rail }) => rail === 'left')
  left.sort((a, b) => a.fromMm - b.fromMm)
  const outerMm = tracks[0]!.elements[1]!.rails.left.lengthMm
  const marked = left.flatMap(({ fromMm, bends }) => bends.map((bend) => [fromMm + bend.fromMm, fromMm + bend.toMm]))
  // by hand: the left rail is straight for 1000 mm, bent for the outer length, then straight
  expect(marked[0]![0]).toBeCloseTo(1000, 6)
  expect(marked.at(-1)![1]).toBeCloseTo(1000 + outerMm, 6)
  expect(marked.reduce((sum, [from, to]) => sum + to! - from!, 0)).toBeCloseTo(outerMm, 6)
  expect(left.flatMap(({ bends }) => bends).every(({ turn }) => turn === 'right')).toBe(true)
})

it('an easement that reverses is marked as two bends that meet where it is straight', () => {
  const { cutting } = estimateOf(
    planOf([arc(3000, 5), easement(600), arc(2000, 5, 'right')], {}, { supplies: { sticks: [{ length: 3000 }] } }),
  )
  const [first] = cutting.sticks.flatMap(({ pieces }) => pieces.filter(({ rail }) => rail === 'left'))
  expect(first!.bends.map(({ turn }) => turn)).toEqual(['left', 'left', 'right', 'right'])
  const [, into, out] = first!.bends
  expect(into).toMatchObject({ radiusMm: null, endRadiusMm: null })
  expect(out).toMatchObject({ radiusMm: null, startRadiusMm: null })
  expect(into!.startRadiusMm).toBeCloseTo(3000 - RAILS_APART_MM / 2, 6)
  expect(out!.endRadiusMm).toBeCloseTo(2000 + RAILS_APART_MM / 2, 6)
  expect(into!.toMm).toBeCloseTo(out!.fromMm, 9)
})

it('chords that do not fit are left out and said so', () => {
  const { bends, findings } = estimateOf(planOf([arc(2000, 10)], {}, { chords: [300, 349, 400, 5000] }))
  // by hand: outer rail 2022.5·asin… fits 349 (arc 349.4 ≤ 353.2), the inner rail (344.9 long) does not
  expect(bends.map(({ ordinates }) => ordinates.map(({ chordMm }) => chordMm))).toEqual([[300, 349], [300]])
  expect(findings.filter(({ rule }) => rule === 'chord-too-long').map(({ measured }) => measured)).toEqual([
    349, 400, 5000,
  ])
})

it('a rail under the minimum piece is cut as it is and named', () => {
  const { findings } = estimateOf(planOf([straight(120)]))
  expect(findings.filter(({ rule }) => rule === 'piece-too-short')).toHaveLength(2)
})

it('too little rail and none to buy is refused with what is missing', () => {
  const plan = planOf([straight(9000)], {}, { supplies: { sticks: [{ length: 1524, onHand: 2, buyable: false }] } })
  expect(estimate(plan)).toMatchObject({
    ok: false,
    faults: [{ code: 'too-little-rail', path: ['supplies', 'sticks'] }],
  })
})

it('findings come in order of severity', () => {
  const { findings } = estimateOf(
    planOf([straight(500), arc(1000, 30), arc(1000, 30, 'right')], {}, { standards: { longestCar: 700 } }),
  )
  const order = findings.map(({ severity }) => ['stop', 'warn', 'note'].indexOf(severity))
  expect(order).toEqual([...order].sort())
  expect(new Set(order).size).toBe(3)
})

it('lists every default it used, each once, and none that was given', () => {
  const { assumptions } = estimateOf({
    rail: { section: '250', material: 'brass' },
    tracks: [{ name: 'main', elements: [straight(500)] }],
  })
  const fields = assumptions.map(({ field }) => field)
  expect(new Set(fields).size).toBe(fields.length)
  // every default of the contract's table
  for (const field of [
    '/gauge',
    '/chords',
    '/supplies/currency',
    '/supplies/sticks',
    '/supplies/kerf',
    '/supplies/minimumPiece',
    '/supplies/ties/spacing',
    '/supplies/ties/fastenersPerTie',
    '/supplies/joiners/packSize',
    '/supplies/joiners/onHand',
    '/standards/maximumGradePct',
    '/standards/closureGap',
    '/standards/closureHeading',
    '/standards/minimumRadius',
    '/standards/minimumTangentBetweenReverseCurves',
    '/tracks/0/start',
  ])
    expect(fields).toContain(field)
  const full = estimateOf(
    planOf(
      [straight(500)],
      { start: { elevation: 0 } },
      {
        resolution: 0.5,
        bender: { work: 'loose-rail' },
        gauge: 45,
        chords: [300],
        supplies: {
          cutting: 'even-pieces',
          currency: 'EUR',
          kerf: 1,
          minimumPiece: 150,
          sticks: [{ length: 1500, packSize: 1, onHand: 0, buyable: true }],
          joiners: { packSize: 1, onHand: 0, length: 30 },
          fasteners: { packSize: 1, onHand: 0 },
          ties: { packSize: 1, onHand: 0, spacing: 45, fastenersPerTie: 4 },
        },
        joints: { stagger: 0 },
        effort: 'quick',
        standards: {
          longestCar: 700,
          minimumRadius: 2000,
          minimumTangentBetweenReverseCurves: 700,
          maximumGradePct: 2,
          closureGap: 2,
          closureHeading: 0.5,
        },
      },
    ),
  )
  // what remains is no default but a figure of the catalogue's
  expect(full.assumptions.map(({ field }) => field)).toEqual(['/rail/section'])
})

describe('random plans', () => {
  const turn = fc.constantFrom('left' as const, 'right' as const)
  const element: fc.Arbitrary<ElementInput> = fc.oneof(
    fc.double({ min: 1, max: 5000, noNaN: true }).map(straight),
    fc
      .tuple(fc.double({ min: 400, max: 9000, noNaN: true }), fc.double({ min: 0.5, max: 400, noNaN: true }), turn)
      .map(([radiusMm, angleDeg, way]) => arc(radiusMm, angleDeg, way)),
  )
  const plans: fc.Arbitrary<PlanInput> = fc
    .tuple(
      fc.array(fc.array(element, { minLength: 1, maxLength: 8 }), { minLength: 1, maxLength: 4 }),
      fc.boolean(),
      fc.nat(9),
      fc.nat(200),
    )
    .map(([tracks, closed, sticksOnHand, tiesOnHand]) => ({
      rail: BRASS_250,
      tracks: tracks.map((elements, index) => ({
        name: `track ${index}`,
        closed,
        start: { y: 9999 * index, heading: 7 * index },
        elements,
      })),
      supplies: {
        sticks: [
          { length: 1524, price: '14.50', onHand: sticksOnHand },
          { length: 1828.8, price: '17.25', packSize: 3 },
        ],
        joiners: { packSize: 10, pricePerPack: '9.00', onHand: 6 },
        ties: { packSize: 100, pricePerPack: '21.00', onHand: tiesOnHand },
      },
    }))

  it('everything adds up: rails, pieces, joints, ties and money', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        const { tracks, cutting, bill, rail } = estimateOf(plan)
        for (const track of tracks) {
          const { left, right } = track.rails
          expect(left.lengthMm + right.lengthMm).toBeCloseTo(2 * track.lengthMm, 6)
          expect(right.lengthMm - left.lengthMm).toBeCloseTo(RAILS_APART_MM * track.turnedDeg * RAD, 6)
          const pieces = cutting.sticks.flatMap((stick) => stick.pieces).filter((piece) => piece.track === track.name)
          for (const side of ['left', 'right'] as const) {
            const own = pieces.filter((piece) => piece.rail === side)
            expect(own.reduce((sum, { lengthMm }) => sum + lengthMm, 0)).toBeCloseTo(track.rails[side].lengthMm, 5)
          }
          expect(track.joints).toBe(pieces.length - 2 + (track.closure ? 2 : 0))
        }
        const sticksMm = cutting.sticks.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
        expect(cutting.wasteMm).toBeCloseTo(sticksMm - rail.lengthMm, 4)
        expect(cutting.sticksUsed).toBeGreaterThanOrEqual(cutting.sticksLowerBound)
        expect(cutting.sticksLowerBound).toBeGreaterThanOrEqual(Math.ceil((rail.lengthMm - 1e-6) / 1828.8))
        let cents = 0
        for (const line of bill.lines) {
          expect(line.toBuy).toBe(Math.max(0, line.required - line.onHand))
          expect(line.packs).toBe(Math.ceil(line.toBuy / line.packSize))
          if (line.amount !== null) {
            expect(line.amount).toBe(((line.packs * Math.round(Number(line.unitPrice) * 100)) / 100).toFixed(2))
            cents += Math.round(Number(line.amount) * 100)
          }
        }
        expect(bill.total).toBe((cents / 100).toFixed(2))
        const required = Object.fromEntries(bill.lines.map((line) => [line.item, line.required]))
        expect(required.joiner).toBe(tracks.reduce((sum, { joints }) => sum + joints, 0))
        expect(required.tie).toBe(tracks.reduce((sum, { ties }) => sum + ties, 0))
        expect(required.fastener).toBe(4 * required.tie!)
      }),
      { numRuns: 300 },
    )
  })

  it('mirrored, the rails change sides and nothing else changes', () => {
    fc.assert(
      fc.property(fc.array(element, { minLength: 1, maxLength: 8 }), (elements) => {
        const mirrored = elements.map((e) =>
          e.kind === 'arc' ? ({ ...e, turn: e.turn === 'left' ? 'right' : 'left' } as const) : e,
        )
        const [a, b] = [estimateOf(planOf(elements)).tracks[0]!, estimateOf(planOf(mirrored)).tracks[0]!]
        expect(b.rails.left.lengthMm).toBeCloseTo(a.rails.right.lengthMm, 6)
        expect(b.turnedDeg).toBeCloseTo(-a.turnedDeg, 9)
        expect(b.end.yMm).toBeCloseTo(-a.end.yMm, 5)
        expect([b.ties, b.lengthMm]).toEqual([a.ties, a.lengthMm])
      }),
    )
  })

  it('the same plan gives the same bytes', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        expect(JSON.stringify(estimateOf(structuredClone(plan)))).toBe(JSON.stringify(estimateOf(plan)))
      }),
      { numRuns: 50 },
    )
  })
})
