import { describe, expect, it } from 'vitest'
import { fittedPatch } from '../../src/estimate/fitted/fitted-patch.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { patched } from '../../src/fitting/json-patch.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { randomLoop } from '../fitting/random-loops.ts'
import { randomFrom } from '../random.ts'
import { arc, BRASS_250, easement, straight } from './plans.ts'

type Sent = Record<string, unknown>

const ORIGIN = { xMm: 0, yMm: 0, headingRad: 0 }
const FIT = { kind: 'tangent', length: 'fit' }
const curve = (more: Sent = { angle: 'fit' }) => ({ kind: 'arc', radius: 'fit', turn: 'left', ...more })
const planOf = (elements: unknown[], more: Sent) => ({ rail: BRASS_250, tracks: [{ name: 'main', ...more, elements }] })
const to = (x: number, y: number, heading?: number) => ({
  end: { at: { x, y, ...(heading !== undefined && { heading }) } },
})

function fitted(sent: unknown) {
  const read = readPlan(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}
const elementsOf = (sent: unknown) => fitted(sent).tracks[0]!.elements
const radiusIn = (elements: readonly ElementInput[]) =>
  elements.flatMap((each) => (each.kind === 'arc' ? [each.radius] : []))[0]!

function faultOf(sent: unknown) {
  const read = readPlan(sent)
  if (read.ok) throw new Error(JSON.stringify(read.plan.tracks))
  return { ...read.faults[0]!, at: `/${read.faults[0]!.path.join('/')}` }
}

const rad = (deg: number) => (deg * Math.PI) / 180

/** The end of two straights that meet at a corner, A and B long, seen from where the first begins. */
function corner(aMm: number, bMm: number, angleDeg: number): [number, number, number] {
  return [aMm + bMm * Math.cos(rad(angleDeg)), bMm * Math.sin(rad(angleDeg)), angleDeg]
}

describe('the widest curve between two straights', () => {
  it('uses up the shorter one: R = (min(A, B) − 1)/tan(Δ/2) (closed form)', () => {
    const random = randomFrom(31)
    for (let round = 0; round < 100; round++) {
      const [a, b, angle] = [1000 + 4000 * random(), 1000 + 4000 * random(), 5 + 170 * random()]
      const given = round % 2 ? curve() : curve({ angle })
      const elements = elementsOf(planOf([FIT, given, FIT], to(...corner(a, b, angle))))
      const [before, bend, after] = elements as unknown as [Sent, Sent, Sent]
      const radius = (Math.min(a, b) - 1) / Math.tan(rad(angle) / 2)
      expect(bend.radius).toBeCloseTo(radius, 6)
      expect(bend.angle).toBeCloseTo(angle, 9)
      expect(before.length).toBeCloseTo(1 + Math.max(0, a - b), 6)
      expect(after.length).toBeCloseTo(1 + Math.max(0, b - a), 6)
    }
  })

  it('with easements is the widest that a search over the straights finds, and meets the end', () => {
    for (const [a, b, angle, e] of [
      [3000, 4000, 90, 600],
      [5000, 2500, 60, 400],
      [2000, 2200, 120, 300],
    ] as const) {
      const [x, y, heading] = corner(a, b, angle)
      const elements = elementsOf(planOf([FIT, easement(e), curve(), easement(e), FIT], to(x, y, heading)))
      const { end } = placeElements(ORIGIN, elements, false).at(-1)!
      expect(Math.hypot(end.xMm - x, end.yMm - y)).toBeLessThan(1e-8)
      // Of all radii whose easements fit into the angle, the largest whose own tangent length is not longer than either side.
      const tangentOf = (radius: number) => {
        const bend = [easement(e), arc(radius, angle - (e / radius) * (180 / Math.PI)), easement(e)]
        const { xMm, yMm } = placeElements(ORIGIN, bend, false).at(-1)!.end
        return xMm - yMm / Math.tan(rad(angle))
      }
      let widest = 0
      for (let radius = e; radius < 10_000; radius += 0.5)
        if (e / radius < rad(angle) && tangentOf(radius) <= Math.min(a, b) - 1) widest = radius
      expect(Math.abs(radiusIn(elements) - widest)).toBeLessThan(0.6)
    }
  })

  it('is the same mirrored and reversed', () => {
    const [a, b, angle] = [3100, 1900, 70]
    const [x, y, heading] = corner(a, b, angle)
    const there = elementsOf(planOf([FIT, easement(250), curve(), FIT], to(x, y, heading)))
    const mirrored = elementsOf(
      planOf([FIT, easement(250), curve({ angle: 'fit', turn: 'right' }), FIT], to(x, -y, -heading)),
    )
    const back = elementsOf(
      planOf([FIT, curve({ angle: 'fit', turn: 'right' }), easement(250), FIT], {
        start: { x, y, heading: heading + 180 },
        ...to(0, 0, 180),
      }),
    )
    const sizes = (elements: readonly ElementInput[]) =>
      elements.flatMap((each) =>
        each.kind === 'arc' ? [each.radius, each.angle!] : 'length' in each ? [each.length!] : [],
      )
    for (const [n, size] of sizes(there).entries()) {
      expect(sizes(mirrored)[n]! / size).toBeCloseTo(1, 9)
    }
    expect(radiusIn(back) / radiusIn(there)).toBeCloseTo(1, 9)
    expect(sizes(back.toReversed())[0]! / sizes(there)[0]!).toBeCloseTo(1, 6)
  })

  it('beside a straight of a given length is what is left for it (closed form)', () => {
    const [x, y, heading] = corner(3000, 5000, 80)
    const [, bend] = elementsOf(planOf([straight(400), curve(), FIT], to(x, y, heading)))
    expect(bend).toMatchObject({ radius: expect.closeTo(2600 / Math.tan(rad(40)), 7), angle: expect.closeTo(80, 9) })
  })
})

describe('a radius or diameter that follows from the end', () => {
  it('of a half circle is half the distance (by hand), written back as it was asked for', () => {
    const sent = planOf(
      [straight(500), { kind: 'arc', diameter: 'fit', angle: 180, turn: 'left' }, FIT],
      to(-200, 3000, 180),
    )
    const plan = fitted(sent)
    expect(radiusIn(plan.tracks[0]!.elements)).toBeCloseTo(1500, 9)
    const patch = fittedPatch(sent, plan)
    expect(patch).toEqual([
      { op: 'replace', path: '/tracks/0/elements/1/diameter', value: 3000 },
      { op: 'replace', path: '/tracks/0/elements/2/length', value: 700 },
    ])
    expect(radiusIn(elementsOf(patched(sent, patch)))).toBe(1500)
  })

  it('of an arc of a given length makes it lead there: R and L of a quarter (by hand)', () => {
    const length = 1000 * Math.PI
    const [, bend] = elementsOf(planOf([FIT, curve({ length }), FIT], to(3000, 4000, 90)))
    expect(bend).toMatchObject({ radius: expect.closeTo(2000, 7), length })
  })

  it('of loops is found again, or closes as well, to 1e-9 mm', () => {
    const random = randomFrom(12)
    let recovered = 0
    for (let round = 0; round < 60; round++) {
      const loop = randomLoop(random)
      const corner = loop.findIndex(({ kind }) => kind === 'arc')
      const open = new Set([corner])
      while (open.size < 2 + (round % 2))
        open.add(loop.findIndex((each, n) => each.kind === 'tangent' && !open.has(n) && random() < 0.5))
      open.delete(-1)
      const made = loop.map((each, n) => {
        if (!open.has(n)) return each
        return each.kind === 'arc' ? { ...each, radius: 'fit' } : { ...each, length: 'fit' }
      })
      const read = readPlan(planOf(made, { closed: true }))
      // Rounded figures do not close exactly, and two parallel straights have no answer of their own.
      if (!read.ok) continue
      const { elements } = read.plan.tracks[0]!
      const own = (loop[corner] as { radius: number }).radius
      const found = (elements[corner] as { radius: number }).radius
      if (Math.abs(found / own - 1) < 0.01) recovered++
      const { end } = placeElements(ORIGIN, elements, true).at(-1)!
      expect(Math.hypot(end.xMm, end.yMm), JSON.stringify(made)).toBeLessThan(5)
    }
    expect(recovered).toBeGreaterThan(25)
  })
})

describe('what cannot be', () => {
  it('is refused with a reason', () => {
    expect(faultOf(planOf([straight(100), curve()], {}))).toMatchObject({
      at: '/tracks/0/elements/1/radius',
      code: 'cannot-fit',
    })
    expect(faultOf(planOf([curve(), curve()], { closed: true }))).toMatchObject({
      code: 'cannot-fit',
      detail: expect.stringContaining('4 lengths, angles and radii'),
    })
    expect(
      faultOf(planOf([FIT, curve({ angle: 90, turn: 'right' }), FIT], to(...corner(3000, 2000, 90)))),
    ).toMatchObject({
      code: 'no-fit',
      at: '/tracks/0/elements/0/length',
    })
    const otherSide = planOf([straight(500), curve({ angle: 180 }), FIT], to(0, -3000, 180))
    expect(faultOf(otherSide)).toMatchObject({
      at: '/tracks/0/elements/1/radius',
      code: 'no-fit',
      detail: expect.stringContaining('the curve 2 would need to turn to the other side'),
    })
    // Round more than half: the straights grow with the curve.
    const around = planOf([FIT, curve({ angle: 270 }), FIT], to(2000, -2000, 270))
    expect(faultOf(around)).toMatchObject({
      at: '/tracks/0/elements/1/radius',
      code: 'no-fit',
      detail: expect.stringContaining('as wide as you like'),
    })
  })
})
