import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { GradePoint } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { layRail, railDistanceAt, stationAtRailDistance } from '../../src/track/rails.ts'
import { gradesAlong } from './grade-line.ts'
import { arc, easement, ORIGIN, poseAt, radians, tangent } from './tracks.ts'

/** Half of a gauge of 45 mm and a head of 2.5 mm. */
const OFFSET = 23.75

/** A track on one grade from end to end. */
function climbing(elements: Parameters<typeof placeElements>[1], gradePct: number) {
  const placed = placeElements(ORIGIN, elements, false)
  const lengthMm = placed.at(-1)!.toMm
  const points: GradePoint[] = [
    { at: 0, elevation: 0 },
    { at: lengthMm, elevation: (lengthMm * gradePct) / 100 },
  ]
  const grades = gradesAlong(points, lengthMm)
  return { placed, lengthMm, left: layRail(placed, grades, OFFSET), right: layRail(placed, grades, -OFFSET) }
}

describe('the rails of a curve on a grade', () => {
  // Closed form: a rail is a helix, √(plan² + rise²) long; both rails rise by the same.
  it.each([
    [1000, 90, 4],
    [3000, 45, -2],
    [600, 405, 3],
    [2743.2, 360, 10],
  ])('R %d mm, %d°, %d %%: each is a helix', (radius, angle, gradePct) => {
    const track = climbing([arc(radius, angle, 'left')], gradePct)
    const turn = radians(angle)
    const rise = (radius * turn * gradePct) / 100
    expect(track.left.lengthMm).toBeCloseTo(Math.hypot((radius - OFFSET) * turn, rise), 8)
    expect(track.right.lengthMm).toBeCloseTo(Math.hypot((radius + OFFSET) * turn, rise), 8)
    const half = Math.hypot(((radius - OFFSET) * turn) / 2, rise / 2)
    expect(railDistanceAt(track.left, track.lengthMm / 2)).toBeCloseTo(half, 8)
    expect(stationAtRailDistance(track.left, half)).toBeCloseTo(track.lengthMm / 2, 8)
  })

  it('to the right the rails change places', () => {
    const [toLeft, toRight] = (['left', 'right'] as const).map((turn) => climbing([arc(900, 70, turn)], 5))
    expect(toRight!.left.lengthMm).toBe(toLeft!.right.lengthMm)
    expect(toRight!.right.lengthMm).toBe(toLeft!.left.lengthMm)
  })

  it('an easement into R 1200, 400 long, at 4 %: √(plan² + rise²)', () => {
    const { left, right } = climbing([easement(400), arc(1200, 10, 'left')], 4)
    expect(left.elements[0]!.lengthMm).toBeCloseTo(Math.hypot(400 - OFFSET / 6, 16), 10)
    expect(right.elements[0]!.lengthMm).toBeCloseTo(Math.hypot(400 + OFFSET / 6, 16), 10)
  })

  it('agrees with the length of a fine polygon in space', () => {
    const elements = [tangent(200), easement(600), arc(900, 80, 'left'), easement(900), arc(800, 50, 'right')]
    const { placed, lengthMm, left, right } = climbing(elements, 4)
    const steps = 20_000
    for (const rail of [left, right]) {
      let polygon = 0
      let before: { x: number; y: number } | null = null
      for (let step = 0; step <= steps; step++) {
        const at = poseAt(placed, (lengthMm * step) / steps)
        const x = at.xMm - rail.offsetLeftMm * Math.sin(at.headingRad)
        const y = at.yMm + rail.offsetLeftMm * Math.cos(at.headingRad)
        if (before) polygon += Math.hypot(x - before.x, y - before.y, (0.04 * lengthMm) / steps)
        before = { x, y }
      }
      expect(Math.abs(rail.lengthMm - polygon)).toBeLessThan(1e-3)
    }
  })

  it('stations and distances lead to each other on steep easements', () => {
    const gradePct = fc.double({ min: -40, max: 40, noNaN: true })
    const part = fc.double({ min: 0, max: 1, noNaN: true })
    const radius = fc.double({ min: 60, max: 5000, noNaN: true })
    fc.assert(
      fc.property(gradePct, part, radius, fc.constantFrom('left', 'right'), (grade, share, of, turn) => {
        const { lengthMm, left, right } = climbing([easement(500), arc(of, 20, turn), easement(300)], grade)
        for (const rail of [left, right]) {
          const station = share * lengthMm
          const back = stationAtRailDistance(rail, railDistanceAt(rail, station))
          expect(Math.abs(back - station)).toBeLessThan(1e-9 * lengthMm)
        }
      }),
    )
  })
})
