import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { GradePoint } from '../../src/plan/rows/track.ts'
import { placeElements, reversalMm } from '../../src/track/place.ts'
import {
  layRail,
  railDistanceAt,
  railOffsetMm,
  signedRailOffsetMm,
  stationAtRailDistance,
} from '../../src/track/rails.ts'
import type { PlacedElement } from '../../src/track/types.ts'
import { gradesAlong } from './grade-line.ts'
import {
  arc,
  curvatureAt,
  degrees,
  easement,
  elements,
  mirrored,
  ORIGIN,
  poseAt,
  radians,
  slackMm,
  tangent,
} from './tracks.ts'

const GAUGE = 45
const HEAD = 2.5
const left = signedRailOffsetMm('left', GAUGE, HEAD)
const right = signedRailOffsetMm('right', GAUGE, HEAD)
const lengthOf = (placed: readonly PlacedElement[]) => placed.at(-1)!.toMm

describe('where the rails stand', () => {
  it('half of gauge and head to either side (by hand)', () => {
    expect(railOffsetMm(45, 2.5)).toBe(23.75)
    expect([left, right]).toEqual([23.75, -23.75])
  })
})

describe('rail lengths of single elements (closed form)', () => {
  it('a quarter of R 1200 to the left: the left rail is the inner one', () => {
    const placed = placeElements(ORIGIN, [arc(1200, 90, 'left')], false)
    expect(layRail(placed, [], left).lengthMm).toBeCloseTo((1176.25 * Math.PI) / 2, 9)
    expect(layRail(placed, [], right).lengthMm).toBeCloseTo((1223.75 * Math.PI) / 2, 9)
  })

  it('the same to the right: the rails change places', () => {
    const placed = placeElements(ORIGIN, [arc(1200, 90, 'right')], false)
    expect(layRail(placed, [], left).lengthMm).toBeCloseTo((1223.75 * Math.PI) / 2, 9)
    expect(layRail(placed, [], right).lengthMm).toBeCloseTo((1176.25 * Math.PI) / 2, 9)
  })

  it('a tangent: both as long as the track', () => {
    const placed = placeElements(ORIGIN, [tangent(1234.5)], false)
    expect(layRail(placed, [], left).lengthMm).toBe(1234.5)
    expect(layRail(placed, [], right).lengthMm).toBe(1234.5)
  })

  it('an easement into R 1200, 400 long: L ∓ 23.75·L/2R', () => {
    const placed = placeElements(ORIGIN, [easement(400), arc(1200, 10, 'left')], false)
    expect(layRail(placed, [], left).elements[0]!.lengthMm).toBeCloseTo(400 - 23.75 / 6, 10)
    expect(layRail(placed, [], right).elements[0]!.lengthMm).toBeCloseTo(400 + 23.75 / 6, 10)
  })

  it('a full circle, b 47.5 mm: the outer rail is 298.45 mm longer, whatever the radius (derived: 2π·b)', () => {
    for (const radius of [600, 1200, 2743.2, 1e5]) {
      const placed = placeElements(ORIGIN, [arc(radius, 360, 'right')], false)
      const difference = layRail(placed, [], left).lengthMm - layRail(placed, [], right).lengthMm
      expect(Math.abs(difference - 298.45)).toBeLessThan(0.005)
      expect(difference).toBeCloseTo(2 * Math.PI * 47.5, 7)
    }
  })

  it('405° and a radius of a thousand kilometres', () => {
    const helix = placeElements(ORIGIN, [arc(900, 405, 'left')], false)
    expect(layRail(helix, [], left).lengthMm).toBeCloseTo((900 - 23.75) * radians(405), 8)
    const flat = placeElements(ORIGIN, [arc(1e9, 1e-4, 'left')], false)
    expect(layRail(flat, [], right).lengthMm - layRail(flat, [], left).lengthMm).toBeCloseTo(47.5 * radians(1e-4), 9)
  })

  it('agrees with the length of a fine polygon along the offset line', () => {
    const placed = placeElements(
      ORIGIN,
      [tangent(200), easement(600), arc(700, 80, 'left'), easement(900), arc(800, 50, 'right')],
      false,
    )
    const steps = 20_000
    for (const offset of [left, right, 150]) {
      let polygon = 0
      let before: { x: number; y: number } | null = null
      for (let step = 0; step <= steps; step++) {
        const at = poseAt(placed, (lengthOf(placed) * step) / steps)
        const x = at.xMm - offset * Math.sin(at.headingRad)
        const y = at.yMm + offset * Math.cos(at.headingRad)
        if (before) polygon += Math.hypot(x - before.x, y - before.y)
        before = { x, y }
      }
      expect(Math.abs(layRail(placed, [], offset).lengthMm - polygon)).toBeLessThan(1e-4)
    }
  })
})

describe('rail on a grade', () => {
  const grades = (points: GradePoint[], placed: readonly PlacedElement[]) => gradesAlong(points, lengthOf(placed))

  it('1 in 10 is √1.01 as long (closed form)', () => {
    const placed = placeElements(ORIGIN, [tangent(1000)], false)
    const points = [
      { at: 0, elevation: 0 },
      { at: 1000, elevation: -100 },
    ]
    expect(layRail(placed, grades(points, placed), left).lengthMm).toBeCloseTo(1000 * Math.sqrt(1.01), 10)
  })

  it('a grade that breaks within an arc (by hand)', () => {
    // R 1000, 2 rad: level for 500 mm, then 3 % up for 1100, then level for 400
    const placed = placeElements(
      ORIGIN,
      [{ kind: 'arc', radius: 1000, angle: degrees(2), turn: 'left' }, tangent(100)],
      false,
    )
    const points = [
      { at: 500, elevation: 0 },
      { at: 1600, elevation: 33 },
    ]
    const laid = grades(points, placed)
    // each rail by its own plan length: √((1 ∓ 0.02375)² + 0.03²) of the station
    const [within, without] = [Math.hypot(0.97625, 0.03), Math.hypot(1.02375, 0.03)]
    const inner = layRail(placed, laid, left)
    expect(inner.elements[0]!.lengthMm).toBeCloseTo(0.97625 * 900 + 1100 * within, 9)
    expect(inner.elements[1]!.lengthMm).toBeCloseTo(100, 10)
    const outer = layRail(placed, laid, right)
    expect(outer.elements[0]!.lengthMm).toBeCloseTo(1.02375 * 900 + 1100 * without, 9)
    expect(railDistanceAt(outer, 1050)).toBeCloseTo(1.02375 * 500 + 550 * without, 9)
    expect(stationAtRailDistance(outer, 1.02375 * 500 + 550 * without)).toBeCloseTo(1050, 9)
  })

  it('several breaks in one element, and one exactly at a joint', () => {
    const placed = placeElements(ORIGIN, [tangent(1000), tangent(1000)], false)
    const points = [0, 200, 600, 1000, 2000].map((at, index) => ({ at, elevation: index % 2 ? 8 : 0 }))
    const rail = layRail(placed, grades(points, placed), right)
    expect(rail.elements[0]!.lengthMm).toBeCloseTo(Math.hypot(200, 8) + 2 * Math.hypot(400, 8), 9)
    expect(rail.elements[1]!.lengthMm).toBeCloseTo(Math.hypot(1000, 8), 9)
    expect(rail.elements[1]!.fromMm).toBe(rail.elements[0]!.toMm)
  })
})

describe('what must hold for the rails of any track', () => {
  it('left + right = 2·L for each element', () => {
    fc.assert(
      fc.property(elements, (track) => {
        const placed = placeElements(ORIGIN, track, false)
        const rails = [layRail(placed, [], left), layRail(placed, [], right)] as const
        for (const [index, element] of placed.entries()) {
          const sum = rails[0].elements[index]!.lengthMm + rails[1].elements[index]!.lengthMm
          expect(Math.abs(sum - 2 * element.lengthMm)).toBeLessThan(1e-12 * element.lengthMm + 1e-12)
        }
      }),
    )
  })

  it('right − left = b·Δ at any radius, whole and in part', () => {
    fc.assert(
      fc.property(
        elements,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (track, a, b) => {
          const placed = placeElements(ORIGIN, track, false)
          const [from, to] = [Math.min(a, b) * lengthOf(placed), Math.max(a, b) * lengthOf(placed)]
          const between = (offset: number) => {
            const rail = layRail(placed, [], offset)
            return railDistanceAt(rail, to) - railDistanceAt(rail, from)
          }
          const difference = between(right) - between(left)
          const turned = poseAt(placed, to).headingRad - poseAt(placed, from).headingRad
          expect(Math.abs(difference - (GAUGE + HEAD) * turned)).toBeLessThan(slackMm(lengthOf(placed)))
        },
      ),
    )
  })

  it('mirrored turns swap the rails', () => {
    fc.assert(
      fc.property(elements, (track) => {
        const rail = layRail(placeElements(ORIGIN, track, false), [], left)
        const other = layRail(placeElements(ORIGIN, mirrored(track), false), [], right)
        expect(other.elements).toEqual(rail.elements)
      }),
    )
  })

  it('a reversed track has the same two rails, changed over', () => {
    fc.assert(
      fc.property(elements, (track) => {
        const rail = layRail(placeElements(ORIGIN, track, false), [], left)
        const back = layRail(placeElements(ORIGIN, mirrored(track).reverse(), false), [], right)
        expect(Math.abs(back.lengthMm - rail.lengthMm)).toBeLessThan(1e-9 * rail.lengthMm)
        for (const [index, { lengthMm }] of rail.elements.entries())
          expect(Math.abs(back.elements[track.length - 1 - index]!.lengthMm - lengthMm)).toBeLessThan(1e-9 * lengthMm)
      }),
    )
  })

  const points = fc
    .uniqueArray(fc.integer({ min: 0, max: 30_000 }), { maxLength: 8 })
    .map((stations) => [...stations].sort((a, b) => a - b).map((at, index) => ({ at, elevation: (index * 37) % 50 })))
  const part = fc.double({ min: 0, max: 1, noNaN: true })

  it('stations and distances along a rail lead to each other, grades and all', () => {
    fc.assert(
      fc.property(elements, points, part, fc.constantFrom(left, right), (track, gradeLine, share, offset) => {
        const placed = placeElements(ORIGIN, track, false)
        const rail = layRail(placed, gradesAlong(gradeLine, lengthOf(placed)), offset)
        const station = share * lengthOf(placed)
        const distance = railDistanceAt(rail, station)
        expect(Math.abs(stationAtRailDistance(rail, distance) - station)).toBeLessThan(slackMm(lengthOf(placed)))
        const along = share * rail.lengthMm
        expect(Math.abs(railDistanceAt(rail, stationAtRailDistance(rail, along)) - along)).toBeLessThan(
          slackMm(rail.lengthMm),
        )
      }),
    )
  })

  it('on the level the distance along a rail is the station less offset times turn', () => {
    fc.assert(
      fc.property(elements, part, (track, share) => {
        const placed = placeElements(ORIGIN, track, false)
        const station = share * lengthOf(placed)
        // closed form: s − o·Δθ
        const direct = station - left * poseAt(placed, station).headingRad
        expect(Math.abs(railDistanceAt(layRail(placed, [], left), station) - direct)).toBeLessThan(
          slackMm(lengthOf(placed)),
        )
      }),
    )
  })

  it('the elements follow each other along the rail and make its whole length', () => {
    fc.assert(
      fc.property(elements, points, (track, gradeLine) => {
        const placed = placeElements(ORIGIN, track, false)
        const rail = layRail(placed, gradesAlong(gradeLine, lengthOf(placed)), right)
        expect(rail.elements).toHaveLength(track.length)
        expect(rail.elements[0]!.fromMm).toBe(0)
        expect(rail.elements.at(-1)!.toMm).toBe(rail.lengthMm)
        for (const [index, element] of rail.elements.entries()) {
          if (index > 0) expect(element.fromMm).toBe(rail.elements[index - 1]!.toMm)
          expect(Math.abs(element.toMm - element.fromMm - element.lengthMm)).toBeLessThan(1e-9 * rail.lengthMm)
          expect(railDistanceAt(rail, placed[index]!.fromMm)).toBe(element.fromMm)
        }
      }),
    )
  })
})

describe('the ends of a rail, and beyond', () => {
  const placed = placeElements(ORIGIN, [tangent(500), arc(1200, 30, 'left')], false)
  const rail = layRail(placed, [], left)

  it('distances are held between the ends', () => {
    expect(railDistanceAt(rail, -10)).toBe(0)
    expect(railDistanceAt(rail, lengthOf(placed))).toBe(rail.lengthMm)
    expect(railDistanceAt(rail, lengthOf(placed) + 10)).toBe(rail.lengthMm)
    expect(stationAtRailDistance(rail, -10)).toBe(0)
    expect(stationAtRailDistance(rail, rail.lengthMm)).toBeCloseTo(lengthOf(placed), 9)
    expect(stationAtRailDistance(rail, rail.lengthMm + 10)).toBe(lengthOf(placed))
  })

  it('a track without elements has no rail', () => {
    const none = layRail([], [], left)
    expect(none).toMatchObject({ lengthMm: 0, elements: [] })
    expect(railDistanceAt(none, 5)).toBe(0)
    expect(stationAtRailDistance(none, 5)).toBe(0)
  })

  it('marks the change of bend on a reversing easement: curvature 0 at the rail’s own distance', () => {
    const reversing = placeElements(ORIGIN, [arc(900, 20, 'left'), easement(700), arc(1300, 20, 'right')], false)
    const station = reversalMm(reversing[1]!)!
    for (const offset of [left, right]) {
      const laid = layRail(reversing, [], offset)
      const mark = railDistanceAt(laid, station)
      expect(curvatureAt(reversing, stationAtRailDistance(laid, mark))).toBeCloseTo(0, 12)
      // closed form: up to there the easement turns s/2R, s = 700·1300/(900 + 1300)
      const s = (700 * 1300) / 2200
      expect(mark).toBeCloseTo(laid.elements[1]!.fromMm + s - (offset * s) / 1800, 9)
    }
  })

  it('2,000 elements with 500 grades', () => {
    const track = Array.from({ length: 1000 }, (_, index) => [
      tangent(10 + index),
      arc(900, 10, index % 2 ? 'left' : 'right'),
    ]).flat()
    const many = placeElements(ORIGIN, track, false)
    const gradeLine = Array.from({ length: 500 }, (_, index) => ({ at: index * 700, elevation: (index % 3) * 9 }))
    const laid = layRail(many, gradesAlong(gradeLine, lengthOf(many)), left)
    const flat = layRail(many, [], left)
    expect(laid.elements).toHaveLength(2000)
    expect(flat.lengthMm).toBeCloseTo(lengthOf(many), 6)
    expect(laid.lengthMm).toBeGreaterThan(flat.lengthMm)
    expect(laid.lengthMm).toBeLessThan(flat.lengthMm * 1.0004)
  })
})
