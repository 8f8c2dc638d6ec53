import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { placeElements } from '../../src/track/place.ts'
import { type Point, sampleLine } from '../../src/track/sample.ts'
import type { PlacedElement } from '../../src/track/types.ts'
import { arc, easement, elements, ORIGIN, poseAt, radians, tangent } from './tracks.ts'

const beside = (placed: readonly PlacedElement[], atMm: number, offset: number): Point => {
  const { xMm, yMm, headingRad } = poseAt(placed, atMm)
  return { xMm: xMm - offset * Math.sin(headingRad), yMm: yMm + offset * Math.cos(headingRad) }
}

const toSegment = (p: Point, a: Point, b: Point) => {
  const [x, y] = [b.xMm - a.xMm, b.yMm - a.yMm]
  const square = x * x + y * y
  const part = square === 0 ? 0 : Math.min(1, Math.max(0, ((p.xMm - a.xMm) * x + (p.yMm - a.yMm) * y) / square))
  return Math.hypot(p.xMm - a.xMm - part * x, p.yMm - a.yMm - part * y)
}

/** The furthest that the true line gets from the whole polygon, over one element by itself, probed at many stations. */
function trueErrorMm(element: PlacedElement, offset: number, points: readonly Point[]): number {
  const alone = [{ ...element, fromMm: 0, toMm: element.lengthMm }]
  const probes = 16 * points.length
  let worst = 0
  for (let probe = 0; probe <= probes; probe++) {
    const share = probe / probes
    const at = beside(alone, share * element.lengthMm, offset)
    // The points stand at equal stations, so the chord that belongs to a probe is known.
    const chord = Math.min(points.length - 2, Math.floor(share * (points.length - 1)))
    worst = Math.max(worst, toSegment(at, points[chord]!, points[chord + 1]!))
  }
  return worst
}

describe('points for drawing', () => {
  it('a tangent is its two ends', () => {
    const { points, errorMm } = sampleLine(placeElements(ORIGIN, [tangent(1000)], false), 10, 0.1)
    expect(points).toEqual([
      { xMm: 0, yMm: 10 },
      { xMm: 1000, yMm: 10 },
    ])
    expect(errorMm).toBe(0)
  })

  it('a quarter of R 1200 within 1 mm: sagitta by hand', () => {
    // r(1 − cos(Δ/2)) ≤ 1 gives Δ ≤ 4.678°, 90°/4.678° = 19.2: 20 chords
    const { points, errorMm } = sampleLine(placeElements(ORIGIN, [arc(1200, 90, 'left')], false), 0, 1)
    expect(points).toHaveLength(21)
    expect(errorMm).toBeLessThanOrEqual(1)
    expect(errorMm).toBeCloseTo(1200 * (1 - Math.cos(radians(2.25))), 3)
    for (const { xMm, yMm } of points) expect(Math.hypot(xMm, yMm - 1200)).toBeCloseTo(1200, 9)
    expect(points.at(-1)!.xMm).toBeCloseTo(1200, 9)
  })

  it('rails keep their distance from the centre', () => {
    const placed = placeElements(ORIGIN, [arc(1200, 90, 'right')], false)
    for (const offset of [23.75, -23.75])
      for (const { xMm, yMm } of sampleLine(placed, offset, 0.2).points)
        expect(Math.hypot(xMm, yMm + 1200)).toBeCloseTo(1200 + offset, 9)
  })

  it('a sharp curve drawn coarsely keeps four chords a turn', () => {
    const { points } = sampleLine(placeElements(ORIGIN, [arc(10, 360, 'left')], false), 0, 100)
    expect(points).toHaveLength(5)
  })

  it('ends of every element are among the points, joints once', () => {
    const placed = placeElements(ORIGIN, [tangent(100), easement(400), arc(900, 30, 'left'), tangent(200)], false)
    const { points } = sampleLine(placed, 0, 0.5)
    for (const { start, end } of placed)
      for (const { xMm, yMm } of [start, end])
        expect(points.filter((p) => p.xMm === xMm && p.yMm === yMm)).toHaveLength(1)
  })

  it('a track without elements has no points', () => {
    expect(sampleLine([], 0, 1)).toEqual({ points: [], errorMm: 0 })
  })

  it('never leaves the line by more than asked, nor by more than it says', () => {
    const error = fc.double({ min: 0.05, max: 50, noNaN: true })
    const offset = fc.constantFrom(0, 23.75, -23.75, 120)
    fc.assert(
      fc.property(elements, error, offset, (track, maxErrorMm, offsetMm) => {
        for (const element of placeElements(ORIGIN, track, false)) {
          fc.pre(element.lengthMm < 100_000)
          const { points, errorMm } = sampleLine([element], offsetMm, maxErrorMm)
          expect(errorMm).toBeLessThanOrEqual(maxErrorMm * (1 + 1e-9))
          expect(trueErrorMm(element, offsetMm, points)).toBeLessThanOrEqual(errorMm * (1 + 1e-6) + 1e-6)
        }
      }),
      // Shrinking would probe millions of points.
      { numRuns: 40, endOnFailure: true },
    )
  })

  it('towards the centre of an easement into a sharp curve keeps to the error, and is not wasteful', () => {
    const [easing] = placeElements(ORIGIN, [easement(600), arc(200, 90, 'left')], false)
    const { points, errorMm } = sampleLine([easing!], 120, 1)
    expect(errorMm).toBeLessThanOrEqual(1)
    expect(trueErrorMm(easing!, 120, points)).toBeLessThanOrEqual(errorMm)
    // By hand: there the offset line is at most 600 mm long, its radius at least 80 mm: √(600²/(8·80)) = 23.7 chords.
    expect(points.length).toBeLessThanOrEqual(25)
  })

  it('is not wasteful: the true error of an arc is most of what was allowed', () => {
    const [element] = placeElements(ORIGIN, [arc(1200, 90, 'left')], false)
    const { points } = sampleLine([element!], -23.75, 0.05)
    expect(trueErrorMm(element!, -23.75, points)).toBeGreaterThan(0.04)
  })

  it('a line that would take too many chords is drawn coarser and says so', () => {
    const placed = placeElements(ORIGIN, [arc(600, 360 * 300, 'left'), tangent(100), arc(700, 90, 'right')], false)
    const { points, errorMm } = sampleLine(placed, 0, 0.01, 5000)
    expect(points.length).toBeLessThanOrEqual(5000 + 3 + 1)
    expect(points.length).toBeGreaterThan(4000)
    expect(errorMm).toBeGreaterThan(0.01)
    expect(points.at(-1)).toEqual({ xMm: placed[2]!.end.xMm, yMm: placed[2]!.end.yMm })
    const fine = sampleLine(placed, 0, 0.01)
    expect(fine.points.length).toBeLessThanOrEqual(20_004)
    const first = fine.points.slice(0, 2)
    expect(Math.hypot(first[1]!.xMm - first[0]!.xMm, first[1]!.yMm - first[0]!.yMm) ** 2 / 4800).toBeLessThan(
      fine.errorMm * 1.01,
    )
  })
})
