import { poseOn } from '../../track/place.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { GroundStation } from './cut-and-fill.ts'

/** A point whose elevation was measured. */
export interface Spot {
  readonly xMm: number
  readonly yMm: number
  readonly elevationMm: number
}

export type Triangle = readonly [Spot, Spot, Spot]

/** How much further out than all spots the corners of the first triangle are. */
const FAR = 1_000
/** The share of the size of a triangle by which a place may lie beyond a side and still be in it. */
const ON_SIDE = 1e-9

/**
 * The triangles of Delaunay between spots: no spot lies inside the circle through the corners of any. Spot by spot, the
 * triangles whose circles hold it are taken out, and the hole is closed with triangles to it (Bowyer 1981, Watson 1981).
 * O(n²), a few hundred spots. Checked by the circles themselves in tests/estimate/earthworks/surface.test.ts.
 */
export function trianglesBetween(spots: readonly Spot[]): Triangle[] {
  const [xs, ys] = [spots.map(({ xMm }) => xMm), spots.map(({ yMm }) => yMm)]
  const [left, low] = [Math.min(...xs), Math.min(...ys)]
  const sizeMm = FAR * Math.max(Math.max(...xs) - left, Math.max(...ys) - low, 1)
  const corner = (xMm: number, yMm: number): Spot => ({ xMm, yMm, elevationMm: 0 })
  const around = [
    corner(left - sizeMm, low - sizeMm),
    corner(left + 3 * sizeMm, low - sizeMm),
    corner(left - sizeMm, low + 3 * sizeMm),
  ]
  let triangles: Triangle[] = [[around[0]!, around[1]!, around[2]!]]
  for (const spot of spots) {
    const hit = triangles.filter((each) => isInCircle(spot, each))
    const sides = hit.flatMap(
      ([a, b, c]) =>
        [
          [a, b],
          [b, c],
          [c, a],
        ] as const,
    )
    // A side that two of them share is inside the hole.
    const edge = sides.filter(([a, b]) => !sides.some(([c, d]) => c === b && d === a))
    triangles = [...triangles.filter((each) => !hit.includes(each)), ...edge.map(([a, b]): Triangle => [a, b, spot])]
  }
  return triangles.filter((each) => !each.some((spot) => around.includes(spot)))
}

/** Inside the circle through three corners that are listed counter-clockwise: the sign of the usual determinant. */
function isInCircle({ xMm, yMm }: Spot, triangle: Triangle): boolean {
  const [a, b, c] = triangle.map((spot) => ({ x: spot.xMm - xMm, y: spot.yMm - yMm })) as [Flat, Flat, Flat]
  const square = ({ x, y }: Flat) => x * x + y * y
  return (
    square(a) * (b.x * c.y - c.x * b.y) - square(b) * (a.x * c.y - c.x * a.y) + square(c) * (a.x * b.y - b.x * a.y) > 0
  )
}

interface Flat {
  readonly x: number
  readonly y: number
}

/** Twice the area, positive where the corners are listed counter-clockwise. */
function area(a: Spot, b: Spot, xMm: number, yMm: number): number {
  return (b.xMm - a.xMm) * (yMm - a.yMm) - (xMm - a.xMm) * (b.yMm - a.yMm)
}

function isIn([a, b, c]: Triangle, xMm: number, yMm: number): boolean {
  const least = -ON_SIDE * area(a, b, c.xMm, c.yMm)
  return area(a, b, xMm, yMm) >= least && area(b, c, xMm, yMm) >= least && area(c, a, xMm, yMm) >= least
}

/** On the plane through the corners of a triangle. */
function elevationOn([a, b, c]: Triangle, xMm: number, yMm: number): number {
  const [ofA, ofB, ofC] = [area(b, c, xMm, yMm), area(c, a, xMm, yMm), area(a, b, xMm, yMm)]
  return (ofA * a.elevationMm + ofB * b.elevationMm + ofC * c.elevationMm) / area(a, b, c.xMm, c.yMm)
}

/** The ground is looked up in steps no longer than this, and straight in between. */
const STEP_MM = 50

/**
 * The ground along a track, from triangles between spots; where the track leaves them, the longest stretch among them.
 * Along a straight it is exact to what a step across the side of a triangle leaves out.
 */
export function groundAlong(placed: readonly PlacedElement[], triangles: readonly Triangle[]): GroundStation[] {
  const lengthMm = placed.at(-1)?.toMm ?? 0
  const steps = Math.max(1, Math.ceil(lengthMm / STEP_MM))
  const runs: GroundStation[][] = [[]]
  let element = 0
  let here: Triangle | undefined
  for (let step = 0; step <= steps; step++) {
    const atMm = (lengthMm * step) / steps
    while (element < placed.length - 1 && placed[element]!.toMm < atMm) element++
    const { xMm, yMm } = poseOn(placed[element]!, atMm)
    // Most steps stay in the triangle of the one before.
    if (!here || !isIn(here, xMm, yMm)) here = triangles.find((each) => isIn(each, xMm, yMm))
    const elevationMm = here ? elevationOn(here, xMm, yMm) : null
    if (elevationMm === null) runs.push([])
    else runs.at(-1)!.push({ atMm, elevationMm })
  }
  const longest = runs.reduce((most, each) => (each.length > most.length ? each : most))
  return longest.length > 1 ? withoutStraight(longest) : []
}

/** Stations that lie on the line between their neighbours say nothing. */
function withoutStraight(stations: readonly GroundStation[]): GroundStation[] {
  const kept: GroundStation[] = []
  for (const [index, station] of stations.entries()) {
    const [before, next] = [kept.at(-1), stations[index + 1]]
    if (before && next) {
      const rise = (next.elevationMm - before.elevationMm) / (next.atMm - before.atMm)
      const onLine = before.elevationMm + rise * (station.atMm - before.atMm)
      if (Math.abs(onLine - station.elevationMm) < SAME_MM) continue
    }
    kept.push(station)
  }
  return kept
}

const SAME_MM = 1e-6
