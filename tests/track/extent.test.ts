import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { extentOf } from '../../src/track/extent.ts'
import { placeElements } from '../../src/track/place.ts'
import type { Pose } from '../../src/track/types.ts'
import { arc, easement, elements, ORIGIN, pose, poseAt, radians, slackMm, tangent } from './tracks.ts'

const extent = (of: Parameters<typeof placeElements>[1], start: Pose = ORIGIN) =>
  extentOf(placeElements(start, of, false))!
const rounded = ({ minXMm, maxXMm, minYMm, maxYMm }: ReturnType<typeof extent>) =>
  [minXMm, maxXMm, minYMm, maxYMm].map((mm) => Number(mm.toFixed(9)) + 0)

describe('extent of arcs and straights, in closed form', () => {
  it.each([
    ['a straight', [tangent(700)], 0, [0, 700, 0, 0]],
    ['a straight up the sheet', [tangent(700)], 90, [0, 0, 0, 700]],
    ['a quarter turn', [arc(1000, 90, 'left')], 0, [0, 1000, 0, 1000]],
    ['a half turn to the right', [arc(1000, 180, 'right')], 0, [0, 1000, -2000, 0]],
    ['a full circle', [arc(1000, 360, 'left')], 0, [-1000, 1000, 0, 2000]],
    ['405°', [arc(1000, 405, 'left')], 0, [-1000, 1000, 0, 2000]],
    [
      'a little either side of the top',
      [arc(1000, 20, 'right')],
      10,
      [0, 2000 * Math.sin(radians(10)), 0, 1000 - 1000 * Math.cos(radians(10))],
    ],
  ])('%s', (_, of, headingDeg, expected) => {
    const found = rounded(extent(of, { ...ORIGIN, headingRad: radians(headingDeg) }))
    for (const [index, mm] of found.entries()) expect(mm).toBeCloseTo(expected[index]!, 6)
  })
})

it('nothing has no extent', () => {
  expect(extentOf([])).toBeNull()
})

it('holds every point of the line, and each side touches one', () => {
  fc.assert(
    fc.property(elements, pose, (of, start) => {
      const placed = placeElements(start, of, false)
      const box = extentOf(placed)!
      const lengthMm = placed.at(-1)!.toMm
      const points = placed.flatMap(({ fromMm, toMm }) =>
        Array.from({ length: 401 }, (_, n) => poseAt(placed, fromMm + ((toMm - fromMm) * n) / 400)),
      )
      const slack = slackMm(lengthMm, start)
      // No curve of the draws is tighter than 600 mm, so between two samples d apart it rises at most d²/(8·600).
      const rise = Math.max(...placed.map(({ lengthMm: mm }) => (mm / 400) ** 2 / (8 * 600))) + slack
      const xs = points.map(({ xMm }) => xMm)
      const ys = points.map(({ yMm }) => yMm)
      const reached = [
        Math.min(...xs) - box.minXMm,
        box.maxXMm - Math.max(...xs),
        Math.min(...ys) - box.minYMm,
        box.maxYMm - Math.max(...ys),
      ]
      for (const mm of reached) {
        expect(mm).toBeGreaterThanOrEqual(-slack)
        expect(mm).toBeLessThanOrEqual(rise)
      }
    }),
    { numRuns: 100 },
  )
})

it('an easement of many turns reaches furthest on its first', () => {
  const placed = placeElements(ORIGIN, [easement(60_000), arc(700, 10, 'left')], false)
  const box = extentOf(placed)!
  const points = Array.from({ length: 60_001 }, (_, mm) => poseAt(placed, mm))
  // The first sampled point within half a millimetre, where the line curves at most at 1/700 mm: 0.5²/(2·700).
  expect(box.maxYMm - Math.max(...points.map(({ yMm }) => yMm))).toBeLessThan(0.0002)
  expect(box.minXMm - Math.min(...points.map(({ xMm }) => xMm))).toBeLessThan(0.0002)
  expect(box.maxXMm - Math.max(...points.map(({ xMm }) => xMm))).toBeLessThan(0.0002)
})

it('an easement between opposite curves is looked at on both sides of where it is straight', () => {
  // Its heading goes from −60° to about 83° and back: down, up and down again. By hand: it is symmetric about its middle.
  const down = { ...ORIGIN, headingRad: radians(-61) }
  const placed = placeElements(down, [arc(800, 1, 'left'), easement(4000), arc(800, 1, 'right')], false)
  const { minYMm, maxYMm } = extentOf(placed.slice(1, 2))!
  const { start, end, fromMm } = placed[1]!
  expect(start.yMm - minYMm).toBeGreaterThan(100)
  expect(maxYMm - end.yMm).toBeCloseTo(start.yMm - minYMm, 6)
  const points = Array.from({ length: 4001 }, (_, mm) => poseAt(placed, fromMm + mm))
  expect(maxYMm - Math.max(...points.map(({ yMm }) => yMm))).toBeLessThan(0.0002)
})
