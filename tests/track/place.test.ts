import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { sizeOfArc } from '../../src/plan/elements.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { easementEnds, elementAt, placeElements, reversalMm, turnedBetween } from '../../src/track/place.ts'
import {
  apartMm,
  arc,
  curvatureAt,
  curvatureOf,
  degrees,
  easement,
  elements,
  mirrored,
  ORIGIN,
  pose,
  poseAt,
  radians,
  scaled,
  slackMm,
  tangent,
} from './tracks.ts'

const FT = 304.8
const lengthOf = (placed: ReturnType<typeof placeElements>) => placed.at(-1)!.toMm

describe('placing elements', () => {
  it('a tangent, a quarter turn and a tangent (by hand)', () => {
    const placed = placeElements(ORIGIN, [tangent(1000), arc(1200, 90, 'left'), tangent(500)], false)
    const end = placed[2]!.end
    expect(end.xMm).toBeCloseTo(2200, 9)
    expect(end.yMm).toBeCloseTo(1700, 9)
    expect(degrees(end.headingRad)).toBeCloseTo(90, 12)
    expect(placed.map(({ index, kind }) => [index, kind])).toEqual([
      [0, 'tangent'],
      [1, 'arc'],
      [2, 'tangent'],
    ])
    expect(placed[1]!.lengthMm).toBeCloseTo(600 * Math.PI, 10)
    expect(placed[1]!.startCurvature).toBe(1 / 1200)
    expect(placed[1]!.endCurvature).toBe(1 / 1200)
    expect(placed[2]!.fromMm).toBe(placed[1]!.toMm)
  })

  it('R 1200 through 90°, and 600 mm along it (derived, no publication)', () => {
    const placed = placeElements(ORIGIN, [arc(1200, 90, 'left')], false)
    const [curve] = placed
    expect(curve!.lengthMm).toBeCloseTo(1884.956, 3)
    expect(Math.hypot(curve!.end.xMm, curve!.end.yMm)).toBeCloseTo(1697.056, 3)
    const middle = poseAt(placed, curve!.lengthMm / 2)
    expect(Math.hypot(middle.xMm - 1200, middle.yMm)).toBeCloseTo(497.056, 3)
    const at = poseAt(placed, 600)
    expect(at.xMm).toBeCloseTo(575.311, 3)
    expect(at.yMm).toBeCloseTo(146.901, 3)
    expect(Math.hypot(at.xMm, at.yMm)).toBeCloseTo(593.77, 3)
    expect(degrees(Math.atan2(at.yMm, at.xMm))).toBeCloseTo(14.3239, 4)
  })

  it('keeps labels, and an arc of 405° turns 405°', () => {
    const labelled: ElementInput = {
      kind: 'arc',
      radius: 900,
      angle: 405,
      turn: 'right',
      label: 'helix',
    }
    const placed = placeElements(ORIGIN, [labelled], false)
    expect(placed[0]!.label).toBe('helix')
    expect(placed[0]!.turnedRad).toBe(-radians(405))
    const eighth = placeElements(ORIGIN, [arc(900, 45, 'right')], false)
    expect(apartMm(placed[0]!.end, eighth[0]!.end)).toBeLessThan(1e-9)
    expect(placed[0]!.lengthMm).toBeCloseTo(900 * radians(405), 9)
  })

  it('an arc by length is the arc by angle', () => {
    const byLength: ElementInput = { kind: 'arc', radius: 1500, length: 1500, turn: 'left' }
    expect(placeElements(ORIGIN, [byLength], false)[0]!.turnedRad).toBe(1)
    expect(sizeOfArc(byLength as Extract<ElementInput, { kind: 'arc' }>)).toEqual({ lengthMm: 1500, angleRad: 1 })
  })

  it('stations add up without drift: twelve 6-ft lengths are 72 ft, 2,000 tangents of 0.1 mm are 200 mm', () => {
    const twelve = placeElements(
      ORIGIN,
      Array.from({ length: 12 }, () => tangent(6 * FT)),
      false,
    )
    expect(lengthOf(twelve)).toBe(72 * FT)
    const many = placeElements(
      ORIGIN,
      Array.from({ length: 2000 }, () => tangent(0.1)),
      false,
    )
    expect(lengthOf(many)).toBe(200)
  })

  it('2,000 elements stay within 1e-9: a regular polygon of 1,000 arcs and tangents closes', () => {
    const track = Array.from({ length: 1000 }, () => [tangent(30), arc(4000, 0.36, 'left')]).flat()
    const placed = placeElements(ORIGIN, track, true)
    expect(placed).toHaveLength(2000)
    expect(apartMm(placed.at(-1)!.end, ORIGIN)).toBeLessThan(1e-9 * lengthOf(placed))
    expect(lengthOf(placed)).toBeCloseTo(30_000 + 8000 * Math.PI, 6)
    expect(degrees(placed.at(-1)!.end.headingRad)).toBeCloseTo(360, 9)
  })

  it('no elements make no track', () => {
    expect(placeElements(ORIGIN, [], false)).toEqual([])
    expect(() => poseAt([], 0)).toThrow(RangeError)
  })

  it('tiny and huge elements', () => {
    const placed = placeElements(
      ORIGIN,
      [tangent(1e-6), arc(1e9, 1e-7, 'left'), easement(1e-6), arc(600, 1e-7, 'right')],
      false,
    )
    for (const element of placed) {
      expect(Number.isFinite(element.end.xMm)).toBe(true)
      expect(element.toMm).toBeGreaterThan(element.fromMm)
    }
    expect(placed[1]!.end.yMm / ((1e9 * radians(1e-7) ** 2) / 2)).toBeCloseTo(1, 9)
  })
})

describe('easements take their curvatures from their neighbours', () => {
  const left = arc(1200, 30, 'left')
  const right = arc(800, 30, 'right')

  it.each([
    ['tangent to arc', [tangent(100), easement(400), left], 1, false, 0, 1 / 1200],
    ['arc to tangent', [right, easement(400), tangent(100)], 1, false, -1 / 800, 0],
    ['arc to arc, reversing', [left, easement(400), right], 1, false, 1 / 1200, -1 / 800],
    ['first of an open track', [easement(400), left], 0, false, 0, 1 / 1200],
    ['last of an open track', [left, easement(400)], 1, false, 1 / 1200, 0],
    ['first of a closed track', [easement(400), left, tangent(9), right], 0, true, -1 / 800, 1 / 1200],
    ['last of a closed track', [left, tangent(9), right, easement(400)], 3, true, -1 / 800, 1 / 1200],
    ['alone on an open track', [easement(400)], 0, false, 0, 0],
    ['alone on a closed track', [easement(400)], 0, true, 0, 0],
  ] as const)('%s', (_name, track, index, closed, startCurvature, endCurvature) => {
    expect(easementEnds(track, index, closed)).toEqual({ startCurvature, endCurvature })
    const placed = placeElements(ORIGIN, track, closed)
    expect(placed[index]).toMatchObject({ startCurvature, endCurvature })
    expect(placed[index]!.turnedRad).toBeCloseTo((400 * (startCurvature + endCurvature)) / 2, 15)
  })

  it('an easement alone is placed as a straight', () => {
    expect(placeElements(ORIGIN, [easement(400)], true)[0]!.end).toEqual({ xMm: 400, yMm: 0, headingRad: 0 })
  })

  it('a right angle with easements on both sides: tangent length and arc (derived)', () => {
    // R 1200, L 400, 90° in all: Ts 1405.365 from the corner, the arc itself 1484.956 long
    const arcLength = 1484.956
    const track: ElementInput[] = [
      easement(400),
      { kind: 'arc', radius: 1200, length: 1200 * (Math.PI / 2) - 400, turn: 'left' },
      easement(400),
    ]
    const placed = placeElements({ xMm: -1405.365, yMm: 0, headingRad: 0 }, track, false)
    const end = placed.at(-1)!.end
    expect(placed[1]!.lengthMm).toBeCloseTo(arcLength, 3)
    expect(degrees(end.headingRad)).toBeCloseTo(90, 12)
    expect(end.xMm).toBeCloseTo(0, 3)
    expect(end.yMm).toBeCloseTo(1405.365, 3)
    const middle = poseAt(placed, lengthOf(placed) / 2)
    expect(Math.hypot(middle.xMm, middle.yMm)).toBeCloseTo(504.905, 3)
  })
})

describe('looking up stations', () => {
  const placed = placeElements(
    ORIGIN,
    [tangent(1000), easement(400), arc(1200, 60, 'left'), easement(500), arc(800, 30, 'right'), tangent(300)],
    false,
  )
  const end = lengthOf(placed)

  it('finds the element, at a joint the one that begins there', () => {
    expect(elementAt(placed, 0).index).toBe(0)
    expect(elementAt(placed, 999.999).index).toBe(0)
    expect(elementAt(placed, 1000).index).toBe(1)
    expect(elementAt(placed, end).index).toBe(5)
    expect(elementAt(placed, end + 5).index).toBe(5)
    expect(elementAt(placed, -5).index).toBe(0)
  })

  it('poses at joints, inside and beyond the ends', () => {
    for (const element of placed) {
      expect(poseAt(placed, element.fromMm)).toEqual(element.start)
      expect(apartMm(poseAt(placed, element.toMm - 1e-9), element.end)).toBeLessThan(2e-9)
    }
    expect(poseAt(placed, end)).toEqual(placed.at(-1)!.end)
    expect(poseAt(placed, end + 1)).toEqual(placed.at(-1)!.end)
    expect(poseAt(placed, -1)).toEqual(ORIGIN)
    expect(poseAt(placed, 400)).toEqual({ xMm: 400, yMm: 0, headingRad: 0 })
  })

  it('curvature steps at joints without easement and runs through those with', () => {
    expect(curvatureAt(placed, 500)).toBe(0)
    expect(curvatureAt(placed, 1100)).toBeCloseTo(1 / 4800, 15)
    expect(curvatureAt(placed, 1400)).toBe(1 / 1200)
    expect(curvatureAt(placed, placed[4]!.fromMm + 1)).toBe(-1 / 800)
    expect(curvatureAt(placed, placed[5]!.fromMm)).toBe(0)
    expect(curvatureAt(placed, end + 10)).toBe(0)
  })

  it('the reversing easement is straight 200 mm in (by hand: 500·(1/1200)/(1/1200 + 1/800))', () => {
    const at = reversalMm(placed[3]!)
    expect(at).toBeCloseTo(placed[3]!.fromMm + 200, 9)
    expect(curvatureAt(placed, at!)).toBeCloseTo(0, 15)
    expect(placed.map(reversalMm).filter((station) => station !== null)).toHaveLength(1)
  })

  it('turned between stations', () => {
    expect(turnedBetween(placed[1]!, 1000, 1200)).toBeCloseTo(200 / 4800, 15)
    expect(turnedBetween(placed[1]!, 1200, 1400)).toBeCloseTo((3 * 200) / 4800, 15)
    expect(turnedBetween(placed[1]!, 0, end)).toBe(placed[1]!.turnedRad)
    expect(turnedBetween(placed[1]!, 0, 500)).toBe(0)
    expect(turnedBetween(placed[2]!, placed[2]!.fromMm + 12, placed[2]!.fromMm + 36)).toBeCloseTo(24 / 1200, 14)
    expect(turnedBetween(placed[4]!, placed[4]!.fromMm, placed[4]!.fromMm + 8)).toBeCloseTo(-0.01, 14)
  })

  it('agrees with the heading of the pose everywhere', () => {
    fc.assert(
      fc.property(elements, fc.double({ min: 0, max: 1, noNaN: true }), (track, part) => {
        const placed = placeElements(ORIGIN, track, false)
        const at = part * lengthOf(placed)
        const turned = placed.reduce((sum, element) => sum + turnedBetween(element, 0, at), 0)
        expect(Math.abs(poseAt(placed, at).headingRad - turned)).toBeLessThan(1e-9)
      }),
    )
  })
})

describe('what must hold for any track', () => {
  it('each element begins where the one before ends', () => {
    fc.assert(
      fc.property(elements, pose, fc.boolean(), (track, start, closed) => {
        const placed = placeElements(start, track, closed)
        expect(placed[0]!.start).toEqual(start)
        expect(placed[0]!.fromMm).toBe(0)
        for (let index = 1; index < placed.length; index++) {
          expect(placed[index]!.start).toBe(placed[index - 1]!.end)
          expect(placed[index]!.fromMm).toBe(placed[index - 1]!.toMm)
        }
      }),
    )
  })

  it('mirrored turns mirror the track', () => {
    fc.assert(
      fc.property(elements, (track) => {
        const placed = placeElements(ORIGIN, track, false)
        const mirror = placeElements(ORIGIN, mirrored(track), false)
        for (const [index, element] of placed.entries()) {
          expect(mirror[index]!.end.xMm).toBe(element.end.xMm)
          expect(Math.abs(mirror[index]!.end.yMm + element.end.yMm)).toBe(0)
          expect(Math.abs(mirror[index]!.turnedRad + element.turnedRad)).toBe(0)
        }
      }),
    )
  })

  it('walked backwards, elements reversed and turns swapped, it leads back along the same line', () => {
    fc.assert(
      fc.property(elements, pose, fc.double({ min: 0, max: 1, noNaN: true }), (track, start, part) => {
        const placed = placeElements(start, track, false)
        const last = placed.at(-1)!
        const about = { ...last.end, headingRad: last.end.headingRad + Math.PI }
        const back = placeElements(about, mirrored(track).reverse(), false)
        const slack = slackMm(last.toMm, start)
        expect(apartMm(back.at(-1)!.end, start)).toBeLessThan(slack)
        expect(Math.abs(lengthOf(back) - last.toMm)).toBeLessThan(slack)
        const at = part * last.toMm
        expect(apartMm(poseAt(back, last.toMm - at), poseAt(placed, at))).toBeLessThan(slack)
        // Facing back, half a turn apart (modulo whole turns, which a walk of many turns has)
        const facing = poseAt(back, last.toMm - at).headingRad - poseAt(placed, at).headingRad
        expect(Math.cos(facing)).toBeCloseTo(-1, 9)
      }),
    )
  })

  it('a tangent or arc cut into two unequal parts leaves everything after it in place', () => {
    fc.assert(
      fc.property(elements, fc.nat(), fc.double({ min: 0.01, max: 0.99, noNaN: true }), (track, pick, part) => {
        const index = pick % track.length
        const element = track[index]!
        fc.pre(element.kind !== 'easement')
        const parts: ElementInput[] =
          element.kind === 'tangent'
            ? [tangent(element.length * part), tangent(element.length * (1 - part))]
            : [part, 1 - part].map((share) => ({
                ...element,
                angle: degrees(sizeOfArc(element as Extract<ElementInput, { kind: 'arc' }>).angleRad * share),
                length: undefined,
              }))
        const whole = placeElements(ORIGIN, track, false)
        const split = placeElements(ORIGIN, [...track.slice(0, index), ...parts, ...track.slice(index + 1)], false)
        expect(apartMm(split.at(-1)!.end, whole.at(-1)!.end)).toBeLessThan(slackMm(lengthOf(whole)))
        expect(Math.abs(lengthOf(split) - lengthOf(whole))).toBeLessThan(slackMm(lengthOf(whole)))
      }),
    )
  })

  it('scaled lengths scale the track', () => {
    fc.assert(
      fc.property(elements, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (track, factor) => {
        const placed = placeElements(ORIGIN, track, false)
        const bigger = placeElements(ORIGIN, scaled(track, factor), false)
        for (const [index, element] of placed.entries()) {
          const slack = slackMm(factor * lengthOf(placed))
          expect(Math.abs(bigger[index]!.end.xMm - factor * element.end.xMm)).toBeLessThan(slack)
          expect(Math.abs(bigger[index]!.end.yMm - factor * element.end.yMm)).toBeLessThan(slack)
          expect(Math.abs(bigger[index]!.end.headingRad - element.end.headingRad)).toBeLessThan(1e-9)
          expect(Math.abs(bigger[index]!.toMm - factor * element.toMm)).toBeLessThan(slack)
        }
      }),
    )
  })

  it('turning the start turns the track about it', () => {
    fc.assert(
      fc.property(elements, pose, (track, start) => {
        const end = placeElements(ORIGIN, track, false).at(-1)!
        const moved = placeElements(start, track, false).at(-1)!
        const [cos, sin] = [Math.cos(start.headingRad), Math.sin(start.headingRad)]
        const expected = {
          xMm: start.xMm + end.end.xMm * cos - end.end.yMm * sin,
          yMm: start.yMm + end.end.xMm * sin + end.end.yMm * cos,
          headingRad: 0,
        }
        expect(apartMm(moved.end, expected)).toBeLessThan(slackMm(end.toMm, start))
      }),
    )
  })

  it('a regular loop of n equal sides closes, eased or not, either way round', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 60 }),
        fc.double({ min: 300, max: 30_000, noNaN: true }),
        fc.double({ min: 1, max: 9000, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.constantFrom('left' as const, 'right' as const),
        (sides, radiusMm, straightMm, easedShare, turn) => {
          const corner = (2 * Math.PI) / sides
          // Each easement turns L/2R, two of them take `easedShare` of the corner.
          const easementMm = easedShare * corner * radiusMm
          const angleRad = corner * (1 - easedShare)
          const curve: ElementInput = { kind: 'arc', radius: radiusMm, angle: degrees(angleRad), turn }
          const side =
            easementMm > 1e-3
              ? [tangent(straightMm), easement(easementMm), curve, easement(easementMm)]
              : [tangent(straightMm), { ...curve, angle: degrees(corner) }]
          const placed = placeElements(ORIGIN, Array.from({ length: sides }, () => side).flat(), true)
          const last = placed.at(-1)!
          expect(apartMm(last.end, ORIGIN)).toBeLessThan(1e-9 * last.toMm)
          expect(Math.abs(last.end.headingRad)).toBeCloseTo(2 * Math.PI, 9)
        },
      ),
    )
  })

  it('an easement turns the mean of its neighbours’ curvatures', () => {
    fc.assert(
      fc.property(elements, (track) => {
        const placed = placeElements(ORIGIN, track, false)
        for (const [index, element] of track.entries()) {
          if (element.kind !== 'easement') continue
          const mean = (curvatureOf(track[index - 1]) + curvatureOf(track[index + 1])) / 2
          expect(placed[index]!.turnedRad).toBeCloseTo(mean * element.length, 12)
        }
      }),
    )
  })
})
