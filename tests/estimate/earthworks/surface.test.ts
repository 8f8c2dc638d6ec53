import { describe, expect, it } from 'vitest'
import { groundAlong, type Spot, trianglesBetween } from '../../../src/estimate/earthworks/surface.ts'
import { readPlan } from '../../../src/estimate/read-plan.ts'
import { placeElements } from '../../../src/track/place.ts'
import { randomFrom } from '../../random.ts'
import { asSent } from '../turnout-plans.ts'
import { worked } from '../worked.ts'

const area = ([a, b, c]: readonly Spot[]) =>
  ((b!.xMm - a!.xMm) * (c!.yMm - a!.yMm) - (c!.xMm - a!.xMm) * (b!.yMm - a!.yMm)) / 2

function randomSpots(seed: number, count: number, heightAt = (_x: number, _y: number) => 0): Spot[] {
  const random = randomFrom(seed)
  return Array.from({ length: count }, () => {
    const [xMm, yMm] = [10_000 * random(), 6_000 * random()]
    return { xMm, yMm, elevationMm: heightAt(xMm, yMm) }
  })
}

const grid = (heightAt: (x: number, y: number) => number, step = 1000): Spot[] =>
  Array.from({ length: 11 * 7 }, (_, n) => {
    const [xMm, yMm] = [(n % 11) * step, Math.floor(n / 11) * step]
    return { xMm, yMm, elevationMm: heightAt(xMm, yMm) }
  })

describe('triangles between measured places', () => {
  it('have no place inside the circle of any, and fill the hull: random places', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const spots = randomSpots(seed, 30)
      const triangles = trianglesBetween(spots)
      for (const triangle of triangles) {
        expect(area(triangle)).toBeGreaterThan(0)
        const { xMm, yMm, radiusMm } = circleOf(triangle)
        for (const spot of spots)
          if (!triangle.includes(spot))
            expect(Math.hypot(spot.xMm - xMm, spot.yMm - yMm)).toBeGreaterThan(radiusMm * (1 - 1e-6))
      }
      // Euler: 2n − 2 − h triangles, h places on the hull; slivers along the hull may be left out.
      const filled = triangles.reduce((sum, triangle) => sum + area(triangle), 0)
      expect(filled).toBeGreaterThan(0.999 * hullArea(spots))
      expect(filled).toBeLessThan(hullArea(spots) * (1 + 1e-9))
    }
  })

  it('fill a grid, where four places always lie on one circle', () => {
    const triangles = trianglesBetween(grid(() => 0))
    expect(triangles).toHaveLength(2 * 10 * 6)
    expect(triangles.reduce((sum, triangle) => sum + area(triangle), 0)).toBeCloseTo(10_000 * 6_000, 0)
  })
})

describe('the ground along a track', () => {
  const plane = (x: number, y: number) => 0.02 * x - 0.03 * y + 40
  const start = { xMm: 1000, yMm: 1000, headingRad: 0.3 }
  const placed = placeElements(
    start,
    [
      { kind: 'tangent', length: 2000, label: null },
      { kind: 'arc', radius: 2000, length: null, angle: 60, turn: 'left', label: null },
    ] as never,
    false,
  )

  it('on a plane is the plane, on straights and curves', () => {
    for (const spots of [grid(plane), randomSpots(7, 60, plane)]) {
      const ground = groundAlong(placed, trianglesBetween(spots))
      expect(ground.length).toBeGreaterThan(2)
      const first = ground[0]!
      const x = 1000 + first.atMm * Math.cos(0.3)
      const y = 1000 + first.atMm * Math.sin(0.3)
      expect(first.elevationMm).toBeCloseTo(plane(x, y), 6)
    }
  })

  it('on a straight over a plane two stations say all', () => {
    expect(groundAlong(placed.slice(0, 1), trianglesBetween(grid(plane)))).toHaveLength(2)
  })

  it('outside all places there is none', () => {
    const far = placeElements(
      { xMm: 90_000, yMm: 0, headingRad: 0 },
      [{ kind: 'tangent', length: 2000, label: null }] as never,
      false,
    )
    expect(groundAlong(far, trianglesBetween(grid(plane)))).toEqual([])
  })
})

describe('earthworks over measured places', () => {
  const sent = (more: object, own: object = {}) => ({
    ...asSent(),
    earthworks: { formationWidth: 300, formationDepth: 0 },
    tracks: [{ name: 'bank', start: { x: 500, y: 2500 }, elements: [{ kind: 'tangent', length: 9000 }], ...own }],
    ...more,
  })
  const ridge = (x: number) => 100 - Math.abs(x - 5000) / 50
  const ground = grid((x) => ridge(x)).map(({ xMm: x, yMm: y, elevationMm: elevation }) => ({ x, y, elevation }))

  it('are those of the same ground given by stations: a ridge along a line of the grid', () => {
    const [byPlaces] = worked(sent({ ground })).tracks
    const stations = [0, 4500, 9000].map((at) => ({ at, elevation: ridge(at + 500) }))
    const [byStations] = worked(sent({}, { ground: stations })).tracks
    expect(byPlaces!.earthworks!.cutL).toBeCloseTo(byStations!.earthworks!.cutL, 6)
    expect(byPlaces!.earthworks!.fillL).toBeCloseTo(byStations!.earthworks!.fillL, 6)
    expect(byPlaces!.earthworks!.balance.shiftMm).toBeCloseTo(byStations!.earthworks!.balance.shiftMm, 6)
  })

  it('a track with ground of its own keeps it, and existing track has none', () => {
    const own = [
      { at: 0, elevation: 0 },
      { at: 9000, elevation: 0 },
    ]
    expect(worked(sent({ ground }, { ground: own })).tracks[0]!.earthworks!.cutL).toBe(0)
    expect(worked(sent({ ground }, { state: 'existing' })).tracks[0]!.earthworks).toBeUndefined()
  })

  it.each<[string, object[], string[]]>([
    ['two places', ground.slice(0, 2), ['/ground too-few']],
    ['one place twice', [...ground.slice(0, 12), ground[3]!], ['/ground/12 contradictory']],
    ['all in one line', ground.slice(0, 11), ['/ground contradictory']],
    ['a grid', ground, []],
  ])('%s', (_, places, faults) => {
    const read = readPlan(sent({ ground: places }))
    expect(read.ok ? [] : read.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)).toEqual(faults)
  })
})

function circleOf([a, b, c]: readonly Spot[]) {
  const [bx, by, cx, cy] = [b!.xMm - a!.xMm, b!.yMm - a!.yMm, c!.xMm - a!.xMm, c!.yMm - a!.yMm]
  const d = 2 * (bx * cy - by * cx)
  const ux = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / d
  const uy = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / d
  return { xMm: a!.xMm + ux, yMm: a!.yMm + uy, radiusMm: Math.hypot(ux, uy) }
}

/** By the chain of outermost places (Andrew 1979). */
function hullArea(spots: readonly Spot[]): number {
  const sorted = spots.toSorted((a, b) => a.xMm - b.xMm || a.yMm - b.yMm)
  const half = (all: readonly Spot[]) => {
    const chain: Spot[] = []
    for (const spot of all) {
      while (chain.length > 1 && area([chain.at(-2)!, chain.at(-1)!, spot]) <= 0) chain.pop()
      chain.push(spot)
    }
    return chain.slice(0, -1)
  }
  const hull = [...half(sorted), ...half(sorted.toReversed())]
  return hull.reduce((sum, spot, n) => {
    const next = hull[(n + 1) % hull.length]!
    return sum + (spot.xMm * next.yMm - next.xMm * spot.yMm) / 2
  }, 0)
}
