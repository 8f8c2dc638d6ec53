import type { PlacedObstacle, Touched } from '../../network/touched.ts'
import type { Pose } from '../../track/types.ts'
import { BESIDE_MM } from './around.ts'
import { type ConnectOption, connectOver, type WayOver } from './connect.ts'
import type { TrackToFit } from './track-to-fit.ts'

/** So many ways are looked at for one connection, so many clear ones are enough, over so many places at most. */
const MOST_LOOKS = 60
const MOST_FOUND = 3
const MOST_PLACES = 8

/** Corners of an obstacle this close to its furthest edge, and further apart than this, have a place each. */
const ON_EDGE_MM = 1
const APART_MM = 200

/** What the search asks of the track it is for. */
export interface Surroundings {
  readonly reverseMm: number
  /** Half of the widest car, and by how much the longest reaches inwards at the least radius. */
  readonly reachMm: number
  /** What a way runs into, and where the track is there. */
  look(option: ConnectOption): { readonly touched: readonly Touched[]; poseAt(mm: number): Pose }
  /** Looks that are left for the whole plan. */
  readonly budget: { looks: number }
}

/**
 * Ways round several obstacles, the shortest first: from the direct way on, whichever way is the shortest is looked
 * at; of what it runs into the first is passed on either side, over a place just clear of it, and the new ways are
 * looked at in turn. So the sides of all obstacles are tried together, and what comes out is what the cars clear.
 *
 * At each place the way touches, from outside, the obstacle with the room for the cars around it, in the direction from
 * the place before to the place after or as it came; a turn of the least radius there holds the whole of a smaller
 * obstacle. Range: up to 60 looks and 8 places; empty where no way is found within these.
 * Checked in tests/estimate/around-several.test.ts against the taut string round the widened obstacles.
 */
export function aroundSeveral(track: TrackToFit, surroundings: Surroundings): ConnectOption[] {
  const { reverseMm, look, budget } = surroundings
  const known = new Set<string>()
  const waiting: Way[] = []
  const add = (places: readonly Pose[]) => {
    const key = places
      .map(({ xMm, yMm, headingRad }) => `${Math.round(xMm)} ${Math.round(yMm)} ${headingRad.toFixed(2)}`)
      .join()
    if (known.has(key) || places.length > MOST_PLACES) return
    known.add(key)
    waiting.push(...connectOver(places, track, reverseMm).map((way) => ({ ...way, places })))
  }
  add([])
  const found: ConnectOption[] = []
  for (let looks = 0; looks < MOST_LOOKS && budget.looks > 0 && found.length < MOST_FOUND; looks++) {
    waiting.sort((a, b) => a.lengthMm - b.lengthMm)
    const way = waiting.shift()
    if (!way) break
    budget.looks--
    const { touched, poseAt } = look(way.option)
    if (touched.length === 0) found.push(way.option)
    else for (const places of furtherPlaces(way, touched, poseAt, surroundings)) add(places)
  }
  return found
}

interface Way extends WayOver {
  readonly places: readonly Pose[]
}

/** The places of a way, with some more that lead it past the first obstacle it runs into. */
function furtherPlaces(
  { places, legsMm, startMm, ends }: Way,
  touched: readonly Touched[],
  poseAt: (mm: number) => Pose,
  { reachMm }: Surroundings,
): Pose[][] {
  const passable = touched.filter(({ obstacle: { outline } }) => !('isOutside' in outline && outline.isOutside))
  const first = passable.toSorted((a, b) => a.atMm - b.atMm)[0]
  if (!first || passable.length < touched.length) return []
  const [from, to] = ends
  const leg = legAt(legsMm, first.atMm - startMm)
  const [before, after] = [places[leg - 1] ?? from, places[leg] ?? to]
  const chordRad = Math.atan2(after.yMm - before.yMm, after.xMm - before.xMm)
  return [chordRad, poseAt(first.atMm).headingRad].flatMap((headingRad) =>
    [1, -1].map((side) =>
      places.toSpliced(leg, 0, ...placesPast(first.obstacle, side, headingRad, reachMm + BESIDE_MM)),
    ),
  )
}

/** On which of the legs between the places a way is, so far from its start. */
function legAt(legsMm: readonly number[], mm: number): number {
  let left = mm
  for (const [index, lengthMm] of legsMm.entries()) {
    left -= lengthMm
    if (left <= 0) return index
  }
  return legsMm.length - 1
}

/** Where a way in a direction passes an obstacle on one side (left is 1): one place, or one at each end of a long edge. */
function placesPast({ outline }: PlacedObstacle, side: number, headingRad: number, asideMm: number): Pose[] {
  const [along, across] = [
    { x: Math.cos(headingRad), y: Math.sin(headingRad) },
    { x: -side * Math.sin(headingRad), y: side * Math.cos(headingRad) },
  ]
  const clear = ({ xMm, yMm }: Point, byMm: number): Pose => ({
    xMm: xMm + byMm * across.x,
    yMm: yMm + byMm * across.y,
    headingRad,
  })
  if ('centre' in outline) return [clear(outline.centre, outline.radiusMm + asideMm)]
  const out = outline.corners.map((corner) => ({
    corner,
    outMm: corner.xMm * across.x + corner.yMm * across.y,
    alongMm: corner.xMm * along.x + corner.yMm * along.y,
  }))
  const most = Math.max(...out.map(({ outMm }) => outMm))
  const edge = out.filter(({ outMm }) => outMm > most - ON_EDGE_MM).toSorted((a, b) => a.alongMm - b.alongMm)
  const [one, other] = [edge[0]!, edge.at(-1)!]
  if (other.alongMm - one.alongMm > APART_MM) return [clear(one.corner, asideMm), clear(other.corner, asideMm)]
  return [clear(one.corner, asideMm)]
}

interface Point {
  readonly xMm: number
  readonly yMm: number
}
