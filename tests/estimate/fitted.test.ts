import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { randomLoop } from '../fitting/random-loops.ts'
import { randomFrom } from '../random.ts'
import { arc, BRASS_250, easement, straight } from './plans.ts'

type Sent = Record<string, unknown>

const planOf = (tracks: Sent[], more: Sent = {}): Sent => ({ rail: BRASS_250, tracks, ...more })
const trackOf = (elements: unknown[], more: Sent = {}): Sent => ({ name: 'main', ...more, elements })
const closed = (...elements: unknown[]) => planOf([trackOf(elements, { closed: true })])

function fitted(sent: unknown) {
  const read = readPlan(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

const elementsOf = (sent: unknown, track = 0) => fitted(sent).tracks[track]!.elements

function faultsOf(sent: unknown) {
  const read = readPlan(sent)
  if (read.ok) throw new Error(JSON.stringify(read.plan.tracks))
  return read.faults.map(({ path, code, detail, hint }) => ({ at: `/${path.join('/')}`, code, detail, hint }))
}

/** How far a closed track misses its start, headings as a metre of track feels them. */
function missMm(elements: readonly ElementInput[]): number {
  const { xMm, yMm, headingRad } = placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, elements, true).at(-1)!.end
  const turns = headingRad / (2 * Math.PI)
  return Math.hypot(xMm, yMm, (turns - Math.round(turns)) * 2 * Math.PI * 1000)
}

/** The element with its length or angle left open. */
const opened = (element: ElementInput): Sent => ({ ...element, [element.kind === 'arc' ? 'angle' : 'length']: 'fit' })

const sizeOf = (element: ElementInput) =>
  element.kind === 'arc' ? element.angle! : 'length' in element ? element.length! : Number.NaN

describe('lengths and angles of loops', () => {
  // Closed to what doubles hold, by the engine's own answer to its two straights.
  function exactLoop(random: () => number): ElementInput[] | null {
    const loop = randomLoop(random)
    const corners = loop.findIndex(({ kind }) => kind === 'arc')
    const straights = loop.flatMap(({ kind }, index) => (kind === 'tangent' ? [index] : []))
    const open = new Set([corners, straights[0]!, straights[1]!])
    const read = readPlan(closed(...loop.map((each, index) => (open.has(index) ? opened(each) : each))))
    return read.ok ? [...read.plan.tracks[0]!.elements] : null
  }

  it('one to three of them are found again to 1e-9 of their size, or others that close as well and are shorter', () => {
    const random = randomFrom(11)
    let [recovered, others] = [0, 0]
    const lengthOf = (elements: readonly ElementInput[]) =>
      placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, elements, true).at(-1)!.toMm
    for (let round = 0; round < 300; round++) {
      const loop = exactLoop(random)
      if (!loop) continue
      expect(missMm(loop)).toBeLessThan(1e-9)
      const count = 1 + (round % 3)
      const open = new Set<number>()
      while (open.size < count) open.add(Math.floor(random() * loop.length))
      const sent = closed(...loop.map((each, index) => (open.has(index) ? opened(each) : each)))
      const read = readPlan(sent)
      // Parallel straights have no answer of their own.
      if (!read.ok) {
        expect(count).toBeGreaterThan(1)
        continue
      }
      const { elements } = read.plan.tracks[0]!
      const same = [...open].every((index) => Math.abs(sizeOf(elements[index]!) / sizeOf(loop[index]!) - 1) < 1e-9)
      if (same) recovered++
      else {
        others++
        expect(lengthOf(elements)).toBeLessThan(lengthOf(loop))
      }
      expect(missMm(elements), JSON.stringify(sent)).toBeLessThan(1e-9)
    }
    expect(recovered).toBeGreaterThan(250)
    expect(others).toBeLessThan(20)
  })
})

describe('known tracks (by hand)', () => {
  it('an oval with one straight left open', () => {
    const oval = closed(straight(3000), arc(1500, 180), { kind: 'tangent', length: 'fit' }, arc(1500, 180))
    expect(elementsOf(oval)[2]).toEqual({ kind: 'tangent', length: expect.closeTo(3000, 9) })
  })

  it('an oval with an angle and two straights left open', () => {
    const oval = closed(
      straight(3000),
      arc(1500, 180),
      straight(1000),
      { kind: 'tangent', length: 'fit' },
      { kind: 'arc', radius: 1500, angle: 'fit', turn: 'left' },
    )
    const [, , , length, angle] = elementsOf(oval)
    expect(length).toEqual({ kind: 'tangent', length: expect.closeTo(2000, 9) })
    expect(angle).toMatchObject({ angle: expect.closeTo(180, 9) })
  })

  it('to a place with and without a heading', () => {
    const to = (at: Sent, ...elements: unknown[]) => planOf([trackOf(elements, { end: { at } })])
    const [first, , last] = elementsOf(
      to({ x: 5000, y: 4000 }, { kind: 'tangent', length: 'fit' }, arc(1000, 90), { kind: 'tangent', length: 'fit' }),
    )
    expect([first, last]).toEqual([
      { kind: 'tangent', length: expect.closeTo(4000, 9) },
      { kind: 'tangent', length: expect.closeTo(3000, 9) },
    ])
    const arcs = elementsOf(
      to(
        { x: 5000, y: 4000, heading: 90 },
        { kind: 'tangent', length: 'fit' },
        { kind: 'arc', diameter: 2000, length: 'fit', turn: 'left' },
        { kind: 'tangent', length: 'fit' },
      ),
    )
    expect(arcs[1]).toMatchObject({ radius: 1000, length: expect.closeTo(500 * Math.PI, 9) })
  })

  it('an easement that has to turn what the arc leaves', () => {
    const made = elementsOf(
      planOf([
        trackOf(
          [
            { kind: 'tangent', length: 'fit' },
            { kind: 'easement', length: 'fit' },
            arc(2000, 80),
            easement(400),
            { kind: 'tangent', length: 'fit' },
          ],
          { end: { at: { x: 6000, y: 5000, heading: 90 } } },
        ),
      ]),
    )
    const end = placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, made, false).at(-1)!.end
    expect(Math.hypot(end.xMm - 6000, end.yMm - 5000)).toBeLessThan(1e-9)
    // 90° = 80° + (400 + e)/(2·2000), the closed form of the angle of two easements.
    expect(made[1]).toEqual({ kind: 'easement', length: expect.closeTo((4000 * Math.PI * 10) / 180 - 400, 6) })
  })
})

describe('what cannot be fitted', () => {
  const fit = { kind: 'tangent', length: 'fit' }
  const bend = { kind: 'arc', radius: 1000, angle: 'fit', turn: 'left' }

  it('says why and what would do', () => {
    expect(faultsOf(planOf([trackOf([fit, arc(1000, 90)])]))).toEqual([
      {
        at: '/tracks/0/elements/0/length',
        code: 'cannot-fit',
        detail: 'the end of this track is free, so any length and any angle would do',
        hint: 'say where the track must end: "closed": true, or "end" with at, before or to',
      },
    ])
    expect(faultsOf(closed(fit, bend, fit, bend))).toMatchObject([
      { at: '/tracks/0/elements/3/angle', code: 'cannot-fit', hint: expect.stringContaining('at most three') },
    ])
    expect(faultsOf(closed(fit, arc(1000, 180), fit, arc(1000, 180), fit))).toMatchObject([
      { at: '/tracks/0/elements/4/length', code: 'cannot-fit', hint: expect.stringContaining('at most two straights') },
    ])
    expect(faultsOf(planOf([trackOf([fit, bend, fit], { end: { at: { x: 9000, y: 9000 } } })]))).toMatchObject([
      { at: '/tracks/0/elements/2/length', code: 'cannot-fit', hint: expect.stringContaining('heading') },
    ])
    expect(faultsOf(closed(straight(3000), arc(1500, 180), fit, arc(1500, 170)))).toEqual([
      {
        at: '/tracks/0/elements/2/length',
        code: 'no-fit',
        detail: expect.stringMatching(/^no value of what is left open brings the track to where it must end: at best/),
        hint: expect.stringMatching(/^the nearest that would do is an end at x .* heading 350°$/),
      },
    ])
    const short = planOf([trackOf([straight(3000), arc(1000, 90), fit], { end: { at: { x: 4000, y: 500 } } })])
    expect(faultsOf(short)).toMatchObject([
      { code: 'no-fit', detail: expect.stringContaining('-500 mm'), hint: expect.stringContaining('y 1000') },
    ])
  })
})

describe('places given by other tracks', () => {
  const fit = { kind: 'tangent', length: 'fit' }
  const endOf = (plan: ReturnType<typeof fitted>, track: number) => {
    const result = estimate(plan, { parts: ['tracks'] })
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    return result.estimate.tracks[track]!
  }
  const W1 = { id: 'six', hand: 'left', number: 6, form: 'straight-frog' }
  const turnout = { kind: 'turnout', name: 'W1', type: 'six', enters: 'points' }

  it('are known once those tracks are fitted, in whatever order they stand', () => {
    const plan = planOf([
      { name: 'last', start: { after: 'first' }, end: { before: 'yard' }, elements: [fit, arc(1000, 90), fit] },
      { name: 'first', end: { at: { x: 2000, y: 0 } }, elements: [straight(300), fit] },
      { name: 'yard', start: { x: 6000, y: 5000, heading: 90 }, elements: [straight(500)] },
    ])
    expect(elementsOf(plan, 1)[1]).toEqual({ kind: 'tangent', length: expect.closeTo(1700, 9) })
    expect(elementsOf(plan, 0).map(sizeOf)).toEqual([expect.closeTo(3000, 8), 90, expect.closeTo(4000, 8)])
    expect(endOf(fitted(plan), 0).closure!.gapMm).toBeLessThan(1e-9)
  })

  it('may be a turnout of another track, or one of its own that it comes back to', () => {
    const siding = planOf(
      [
        { name: 'main', elements: [straight(500), turnout, straight(4000)] },
        {
          name: 'siding',
          start: { from: { turnout: 'W1', leg: 'diverging' } },
          end: { at: { x: 6000, y: 300, heading: 0 } },
          elements: [straight(200), { kind: 'connect', minimumRadius: 1000, minimumTangent: 100 }],
        },
      ],
      { turnoutTypes: [W1] },
    )
    expect(endOf(fitted(siding), 1).closure!.gapMm).toBeLessThan(1e-9)
    const reverse = planOf(
      [
        trackOf([straight(500), turnout, { kind: 'connect', minimumRadius: 900, minimumTangent: 200 }], {
          end: { to: { turnout: 'W1', leg: 'diverging' } },
        }),
      ],
      { turnoutTypes: [W1] },
    )
    expect(endOf(fitted(reverse), 0).closure!.gapMm).toBeLessThan(1e-9)
  })

  it('cannot depend on what is left open itself', () => {
    const circle = planOf([
      { name: 'a', end: { before: 'b' }, elements: [fit] },
      { name: 'b', start: { after: 'a' }, elements: [straight(500)] },
    ])
    expect(faultsOf(circle)).toMatchObject([
      {
        at: '/tracks/0/end',
        code: 'cannot-fit',
        detail: expect.stringContaining('depends on what is left open in it'),
      },
    ])
    const each = planOf(
      [
        { name: 'a', end: { to: { turnout: 'W2', leg: 'diverging' } }, elements: [fit, fit] },
        { name: 'b', start: { x: 0, y: 900 }, end: { to: { turnout: 'W1', leg: 'diverging' } }, elements: [fit, fit] },
        { name: 'c', start: { after: 'a' }, elements: [straight(500), turnout, straight(500)] },
        { name: 'd', start: { after: 'b' }, elements: [straight(500), { ...turnout, name: 'W2' }, straight(500)] },
      ],
      { turnoutTypes: [W1] },
    )
    expect(faultsOf(each)).toMatchObject([
      { at: '/tracks/1/end', code: 'cannot-fit', detail: expect.stringContaining('"a"') },
    ])
    const behind = planOf(
      [trackOf([straight(500), fit, turnout], { end: { to: { turnout: 'W1', leg: 'diverging' } } })],
      {
        turnoutTypes: [W1],
      },
    )
    expect(faultsOf(behind)).toMatchObject([{ at: '/tracks/0/end', code: 'cannot-fit' }])
  })

  it('are not looked for in too many tracks', () => {
    const many = Array.from({ length: 51 }, (_, n) => ({
      name: `t${n}`,
      start: { x: 0, y: 200 * n },
      end: { at: { x: 5000, y: 200 * n } },
      elements: [fit],
    }))
    expect(faultsOf(planOf(many))).toMatchObject([{ at: '/tracks', code: 'too-many' }])
    expect(elementsOf(planOf(many.slice(1)), 49)).toEqual([{ kind: 'tangent', length: expect.closeTo(5000, 9) }])
  })
})

describe('faults of a plan with something open', () => {
  const fit = { kind: 'tangent', length: 'fit' }

  it('are found before and after it is fitted, at the elements as they were sent', () => {
    const end = { at: { x: 5000, y: 3000, heading: 90 } }
    const path = { kind: 'connect', minimumRadius: 1000 }
    expect(
      faultsOf(planOf([trackOf([straight(500), path, easement(300), straight(300)], { end })], { chords: [0.0001] })),
    ).toMatchObject([{ at: '/chords/0' }])
    // The easement behind the connection is straight on both sides.
    expect(faultsOf(planOf([trackOf([straight(500), path, easement(300), straight(300)], { end })]))).toMatchObject([
      { at: '/tracks/0/elements/2', code: 'easement-without-change' },
    ])
    expect(faultsOf(planOf([trackOf([fit], { end, breaks: [{ at: 9000, kind: 'insulated' }] })]))).toMatchObject([
      { code: 'no-fit' },
    ])
    const oval = trackOf([straight(3000), arc(1500, 180), fit, arc(1500, 180)], { closed: true })
    expect(faultsOf(planOf([{ ...oval, breaks: [{ at: 16_000, kind: 'insulated' }] }]))).toMatchObject([
      { at: '/tracks/0/breaks/0/at' },
    ])
    expect(faultsOf(planOf([{ ...oval, elements: [fit, arc(1500, 180), fit, arc(1500, 180)] }]))).toMatchObject([
      { code: 'no-fit', detail: expect.stringContaining('one direction only') },
    ])
  })
})

describe('connections', () => {
  const connect = (more: Sent = {}) => ({ kind: 'connect', minimumRadius: 1000, ...more })
  const to = (x: number, y: number, heading: number, elements: unknown[], more: Sent = {}) =>
    planOf([trackOf(elements, { end: { at: { x, y, heading } } })], more)

  function closure(sent: Sent, track = 0) {
    const result = estimate(fitted(sent), { parts: ['tracks', 'findings'], sent })
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    return { ...result.estimate.tracks[track]!.closure!, findings: result.estimate.findings }
  }

  it('meet their ends, whatever lies beside them', () => {
    for (const elements of [
      [straight(500), connect(), straight(500)],
      [arc(1200, 30, 'right'), connect({ minimumTangent: 300 }), arc(1500, 20)],
      [arc(1200, 30), connect({ easement: 300, minimumTangent: 300 })],
      [arc(1500, 20), easement(400), connect({ easement: 300 }), easement(400), arc(1500, 20, 'right')],
      [connect()],
    ]) {
      const { gapMm, headingDeg } = closure(to(7000, 3000, 120, elements))
      expect(gapMm, JSON.stringify(elements)).toBeLessThan(1e-9)
      expect(Math.abs(headingDeg!)).toBeLessThan(1e-9)
    }
  })

  it('close a loop', () => {
    const loop = closed(straight(2000), arc(1500, 100), straight(500), connect({ minimumRadius: 1200 }))
    expect(closure(loop).gapMm).toBeLessThan(1e-9)
  })

  it('take the shortest that has no finding', () => {
    const sent = to(8000, 300, 0, [straight(500), connect()], { standards: { longestCar: 500, minimumRadius: 900 } })
    expect(closure(sent).findings.filter(({ severity }) => severity !== 'note')).toEqual([])
  })

  it('say what is in the way', () => {
    expect(faultsOf(to(0, 0, 0, [connect()]))).toMatchObject([{ code: 'no-fit', at: '/tracks/0/elements/0' }])
    expect(faultsOf(planOf([trackOf([connect()], { end: { at: { x: 1, y: 2 } } })]))).toMatchObject([
      { code: 'cannot-fit', hint: expect.stringContaining('heading') },
    ])
    const eased = [arc(1000, 30, 'right'), connect({ minimumRadius: 594, easement: 1244 })]
    const longest = faultsOf(to(1762.9, -640.8, 329, eased))
    expect(longest).toMatchObject([
      { code: 'no-fit', at: '/tracks/0/elements/1/easement', hint: expect.stringMatching(/easements of [\d.]+ mm$/) },
    ])
    const mm = Number(/of ([\d.]+) mm$/.exec(longest[0]!.hint!)![1])
    const with_ = (easement: number) => to(1762.9, -640.8, 329, [eased[0], connect({ minimumRadius: 594, easement })])
    expect(readPlan(with_(mm - 0.01)).ok).toBe(true)
    expect(readPlan(with_(mm + 0.01)).ok).toBe(false)
  })
})
