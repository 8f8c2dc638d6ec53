import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { placedElements } from '../../../src/page/drawing/plan-to-draw.ts'
import { poseOn } from '../../../src/track/place.ts'
import { cases } from '../../cases.ts'
import { built, measure, refusal, trackCalled } from './built.ts'

const ERROR = 'largest error of the spacing, in easements'
const tangent = (length: number) => ({ kind: 'tangent', length })
const easement = (length: number) => ({ kind: 'easement', length })
const arc = (radius: number, angle: number, turn: string) => ({ kind: 'arc', radius, angle, turn })
const doubled = (elements: object[], more: object = {}) => ({ figure: 'parallel', spacing: 200, elements, ...more })

/** The smallest distance of places along the parallel track from a fine polyline of the given one: a check by brute force. */
function errorByForce(made: ReturnType<typeof built>, spacing: number): number {
  const [given, beside] = ['main', 'parallel'].map((name) => placedElements(trackCalled(made, name), false))
  const fine = given!.flatMap((element) =>
    Array.from({ length: 2001 }, (_, n) => poseOn(element, element.fromMm + (element.lengthMm * n) / 2000)),
  )
  const inner = beside!.slice(1, -1)
  return Math.max(
    ...inner.flatMap((element) =>
      [0, 0.3, 0.5, 0.7, 1].map((part) => {
        const { xMm, yMm } = poseOn(element, element.fromMm + element.lengthMm * part)
        return Math.abs(Math.min(...fine.map((pose) => Math.hypot(pose.xMm - xMm, pose.yMm - yMm))) - spacing)
      }),
    ),
  )
}

describe('a track beside another', () => {
  test('of straights and arcs is exact: the arcs have the same centres', () => {
    const made = built(doubled([tangent(1000), arc(1500, 60, 'left'), arc(4000, 20, 'right'), tangent(500)]))
    const { elements } = trackCalled(made, 'parallel')
    expect(elements.map(({ radiusMm }) => radiusMm)).toEqual([null, 1300, 4200, null])
    expect(elements.map(({ angleDeg }) => Math.round(angleDeg * 1e9) / 1e9)).toEqual([0, 60, 20, 0])
    expect(measure(made, ERROR)).toBe(0)
    expect(errorByForce(made, 200)).toBeLessThan(1e-3)
  })

  const eased = [tangent(1000), easement(600), arc(1500, 60, 'left'), easement(600), tangent(800)]

  test('of an easement has another easement, between the parallels of its straight and its arc', () => {
    const made = built(doubled(eased))
    const error = measure(made, ERROR)
    // By brute force to the fineness of its polyline; own estimate by hand: the shift L²/24R is the same for both easements.
    expect(errorByForce(made, 200)).toBeGreaterThan(error * 0.7)
    expect(errorByForce(made, 200)).toBeLessThan(error + 1e-3)
    expect(error).toBeLessThan(1)
    const [, transition, curve] = trackCalled(made, 'parallel').elements
    expect(transition!.lengthMm / 600).toBeCloseTo(Math.sqrt(1300 / 1500), 2)
    // The arcs have one centre.
    const centre = (start: { xMm: number; yMm: number; headingDeg: number }, radius: number) => {
      const h = (start.headingDeg * Math.PI) / 180
      return [start.xMm - radius * Math.sin(h), start.yMm + radius * Math.cos(h)]
    }
    const given = trackCalled(made, 'main').elements[2]!
    const [one, other] = [centre(given.start, 1500), centre(curve!.start, 1300)]
    expect(one[0]).toBeCloseTo(other[0]!, 7)
    expect(one[1]).toBeCloseTo(other[1]!, 7)
  })

  test('ends square to the end of the given track, whatever lies between', () => {
    const sizes = fc.record({
      spacing: fc.double({ min: 50, max: 300, noNaN: true }),
      side: fc.constantFrom('left', 'right'),
      turns: fc.array(
        fc.record({
          radius: fc.integer({ min: 900, max: 5000 }),
          angle: fc.integer({ min: 50, max: 150 }),
          turn: fc.constantFrom('left', 'right'),
          ease: fc.integer({ min: 100, max: 500 }),
          straight: fc.integer({ min: 800, max: 2000 }),
        }),
        { minLength: 1, maxLength: 3 },
      ),
    })
    fc.assert(
      fc.property(sizes, ({ spacing, side, turns }) => {
        const elements = [
          tangent(1500),
          ...turns.flatMap(({ radius, angle, turn, ease, straight }) => [
            easement(ease),
            arc(radius, angle, turn),
            easement(ease),
            tangent(straight),
          ]),
        ]
        const made = built(doubled(elements, { spacing, side }))
        const [given, beside] = ['main', 'parallel'].map((name) => trackCalled(made, name).elements.at(-1)!.end)
        const h = (given!.headingDeg * Math.PI) / 180
        const left = side === 'left' ? spacing : -spacing
        expect(beside!.xMm).toBeCloseTo(given!.xMm - left * Math.sin(h), 6)
        expect(beside!.yMm).toBeCloseTo(given!.yMm + left * Math.cos(h), 6)
        expect(measure(made, ERROR)).toBeLessThan(5)
      }),
      { numRuns: cases(150) },
    )
  })

  test('from arc to arc, reversing, and at its ends has easements too', () => {
    const asked = [
      [easement(400), arc(2000, 60, 'left'), easement(300), arc(1000, 50, 'left'), easement(500)],
      [
        tangent(500),
        easement(300),
        arc(2000, 40, 'right'),
        easement(800),
        arc(1500, 40, 'left'),
        easement(300),
        tangent(500),
      ],
    ]
    for (const elements of asked)
      for (const side of ['left', 'right']) {
        const made = built(doubled(elements, { side }))
        expect(errorByForce(made, 200)).toBeLessThan(measure(made, ERROR) + 1e-3)
        expect(measure(made, ERROR)).toBeLessThan(2)
      }
  })

  test('inside a curve that is too tight, or of what has no parallel, is refused', () => {
    expect(refusal(doubled([arc(200, 90, 'left')])).map(([at, code]) => [at, code])).toEqual([
      ['spacing', 'out-of-range'],
    ])
    expect(refusal(doubled([arc(200, 90, 'left')], { side: 'right' }))).toEqual([])
    expect(refusal(doubled([{ kind: 'crossing', name: 'X', angle: 20 }])).map(([at]) => at)).toEqual([
      'elements/0/kind',
    ])
    expect(refusal(doubled([easement(100), easement(100)])).map(([at]) => at)).toContain('elements/0')
    expect(
      refusal(doubled([tangent(1), easement(900), arc(950, 30, 'left')], { spacing: 700, side: 'right' })),
    ).toHaveLength(1)
  })
})
