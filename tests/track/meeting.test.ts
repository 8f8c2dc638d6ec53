import { describe, expect, it } from 'vitest'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { boundingBox } from '../../src/track/bounding-box.ts'
import { cutElement, meetingsOf as meetingsOfCut } from '../../src/track/meeting.ts'
import { placeElements, poseOn } from '../../src/track/place.ts'
import type { PlacedElement } from '../../src/track/types.ts'
import { arc, easement, straight } from '../estimate/plans.ts'
import { randomFrom } from '../random.ts'

function placed(xMm: number, yMm: number, headingDeg: number, elements: ElementInput[], index = 0): PlacedElement {
  return placeElements({ xMm, yMm, headingRad: (headingDeg * Math.PI) / 180 }, elements, false)[index]!
}

const meetingsOf = (first: PlacedElement, second: PlacedElement) => meetingsOfCut(cutElement(first), cutElement(second))

const sorted = (meetings: ReturnType<typeof meetingsOf>) =>
  meetings.map(({ firstMm, secondMm }) => [firstMm, secondMm]).toSorted((a, b) => a[0]! - b[0]! || a[1]! - b[1]!)

describe('straights', () => {
  const east = placed(0, 0, 0, [straight(1000)])

  it('cross at one place (by hand)', () => {
    // From (300, −400) at 90°: meets the x axis after 400.
    expect(sorted(meetingsOf(east, placed(300, -400, 90, [straight(500)])))).toEqual([
      [expect.closeTo(300, 9), expect.closeTo(400, 9)],
    ])
    expect(meetingsOf(east, placed(300, -400, 90, [straight(399)]))).toEqual([])
    expect(meetingsOf(east, placed(1001, -400, 90, [straight(500)]))).toEqual([])
  })

  it('parallel do not meet; on each other they meet in the middle of what they share', () => {
    expect(meetingsOf(east, placed(0, 1, 0, [straight(1000)]))).toEqual([])
    // Shared: 600 to 1000, which is 0 to 400 of the other; backwards it is 1000 to 600.
    expect(sorted(meetingsOf(east, placed(600, 0, 0, [straight(1000)])))).toEqual([[800, 200]])
    expect(sorted(meetingsOf(east, placed(1600, 0, 180, [straight(1000)])))).toEqual([[800, expect.closeTo(800, 6)]])
    expect(meetingsOf(east, placed(1000, 0, 0, [straight(1000)]))).toEqual([])
  })
})

describe('arcs', () => {
  // Centre (0, 1000), from (0, 0) counter-clockwise.
  const circle = placed(0, 0, 0, [arc(1000, 360)])

  it('a line through the centre meets a circle a quarter and three quarters round', () => {
    const line = placed(-2000, 1000, 0, [straight(4000)])
    expect(sorted(meetingsOf(circle, line))).toEqual([
      [expect.closeTo(500 * Math.PI, 6), expect.closeTo(3000, 6)],
      [expect.closeTo(1500 * Math.PI, 6), expect.closeTo(1000, 6)],
    ])
  })

  it('of several turns are met once a turn', () => {
    const twice = placed(0, 0, 0, [arc(1000, 720)])
    expect(meetingsOf(twice, placed(-2000, 1000, 0, [straight(4000)]))).toHaveLength(4)
  })

  it('two circles of radius 1000, centres 1200 apart, meet 800 either side (3-4-5 triangle)', () => {
    const other = placed(1200, 0, 0, [arc(1000, 360)])
    const points = meetingsOf(circle, other).map(({ firstMm }) => poseOn(circle, firstMm))
    expect(points.map(({ xMm, yMm }) => [xMm, yMm]).toSorted((a, b) => a[1]! - b[1]!)).toEqual([
      [expect.closeTo(600, 6), expect.closeTo(200, 6)],
      [expect.closeTo(600, 6), expect.closeTo(1800, 6)],
    ])
  })

  it('one inside the other or beside it do not meet, nor do parts that do not reach', () => {
    expect(meetingsOf(circle, placed(0, 300, 0, [arc(700, 360)]))).toEqual([])
    expect(meetingsOf(circle, placed(2100, 0, 0, [arc(1000, 360)]))).toEqual([])
    expect(meetingsOf(placed(0, 0, 0, [arc(1000, 5)]), placed(1200, 0, 0, [arc(1000, 360)]))).toEqual([])
  })

  it('of one circle meet in the middle of what they share, whichever way they go (by hand)', () => {
    const quarter = 500 * Math.PI
    const half = placed(0, 0, 0, [arc(1000, 180)])
    const second = placed(1000, 1000, 90, [arc(1000, 180)])
    expect(sorted(meetingsOf(half, second))).toEqual([
      [expect.closeTo(1.5 * quarter, 6), expect.closeTo(0.5 * quarter, 6)],
    ])
    const back = placed(-1000, 1000, -90 + 180, [arc(1000, 180, 'right')])
    // From (−1000, 1000) to the right over the top: shares nothing with the lower half.
    expect(sorted(meetingsOf(placed(-1000, 1000, -90, [arc(1000, 180)]), back))).toEqual([])
    const over = placed(0, 2000, 180, [arc(1000, 400)])
    expect(meetingsOf(over, over).length).toBeGreaterThanOrEqual(1)
  })
})

describe('easements', () => {
  it('meet where a fine polygon of them does (independent calculation)', () => {
    const random = randomFrom(7)
    let met = 0
    for (let turn = 0; turn < 200; turn++) {
      const easementOf = () =>
        placed(random() * 2000, random() * 2000, random() * 360, [
          easement(300 + random() * 1500),
          arc(600 + random() * 2000, 10, random() < 0.5 ? 'left' : 'right'),
        ])
      const [a, b] = [easementOf(), easementOf()]
      const polygons = crossingsOfPolygons(a, b)
      const meetings = meetingsOf(a, b)
      expect(meetings).toHaveLength(polygons.length)
      for (const { firstMm, secondMm } of meetings) {
        const [p, q] = [poseOn(a, a.fromMm + firstMm), poseOn(b, b.fromMm + secondMm)]
        expect(Math.hypot(p.xMm - q.xMm, p.yMm - q.yMm)).toBeLessThan(1e-6)
        expect(Math.min(...polygons.map((at) => Math.abs(at - firstMm)))).toBeLessThan(a.lengthMm / 400)
      }
      met += meetings.length
    }
    expect(met).toBeGreaterThan(20)
  })
})

/** Where polygons of 400 chords cross, along the first. */
function crossingsOfPolygons(a: PlacedElement, b: PlacedElement): number[] {
  const count = 400
  const points = (element: PlacedElement) =>
    Array.from({ length: count + 1 }, (_, index) =>
      poseOn(element, element.fromMm + (element.lengthMm * index) / count),
    )
  const [p, q] = [points(a), points(b)]
  const found: number[] = []
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      const [p1, p2, q1, q2] = [p[i]!, p[i + 1]!, q[j]!, q[j + 1]!]
      const side = (u: typeof p1, v: typeof p1, w: typeof p1) =>
        (v.xMm - u.xMm) * (w.yMm - u.yMm) - (v.yMm - u.yMm) * (w.xMm - u.xMm)
      if (side(p1, p2, q1) * side(p1, p2, q2) < 0 && side(q1, q2, p1) * side(q1, q2, p2) < 0)
        found.push((a.lengthMm * (i + 0.5)) / count)
    }
  return found
}

describe('the rectangle around an element', () => {
  it.each([
    ['a straight', [straight(1000)]],
    ['an arc', [arc(700, 250)]],
    ['two turns', [arc(700, 720)]],
    ['an easement', [easement(900), arc(600, 20)]],
  ])('holds %s, and not much more', (_, elements) => {
    const element = placed(100, 50, 30, elements)
    const box = boundingBox(element)
    const points = Array.from({ length: 2001 }, (__, index) => poseOn(element, (element.lengthMm * index) / 2000))
    for (const { xMm, yMm } of points) {
      expect(xMm).toBeGreaterThanOrEqual(box.minXMm)
      expect(xMm).toBeLessThanOrEqual(box.maxXMm)
      expect(yMm).toBeGreaterThanOrEqual(box.minYMm)
      expect(yMm).toBeLessThanOrEqual(box.maxYMm)
    }
    const width = Math.max(...points.map(({ xMm }) => xMm)) - Math.min(...points.map(({ xMm }) => xMm))
    expect(box.maxXMm - box.minXMm).toBeLessThan(width * 1.1 + 1)
  })
})
