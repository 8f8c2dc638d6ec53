import type { PlacedObstacle, Touched } from '../../network/touched.ts'
import type { Outline } from '../../room/outline.ts'
import type { Pose } from '../../track/types.ts'
import type { Plan } from '../plan.ts'

/** More than the cars need beside an obstacle, for what curves there take. */
export const BESIDE_MM = 15
/** Of those in the way, so many of the deepest are gone round. */
const MOST_OBSTACLES = 2

/**
 * Places on either side of what a track runs into, clear of it: as far from its middle as its furthest corner and half the
 * widest car, with the L²/8R by which the middle of the longest reaches inwards. They face as the track does there, and
 * straight from one end of it to the other.
 */
export function placesBeside(
  touched: readonly Touched[],
  track: { readonly start: Pose; readonly end: Pose; poseAt(mm: number): Pose },
  { cars }: Pick<Plan, 'cars'>,
  minimumRadiusMm: number,
): Pose[] {
  const reachMm = reachOf(cars, minimumRadiusMm)
  const directRad = Math.atan2(track.end.yMm - track.start.yMm, track.end.xMm - track.start.xMm)
  return touched
    .filter(({ obstacle: { outline } }) => !('isOutside' in outline && outline.isOutside))
    .toSorted((a, b) => b.depthMm - a.depthMm)
    .slice(0, MOST_OBSTACLES)
    .flatMap(({ obstacle, atMm }) => {
      const { middle, radiusMm } = aroundIt(obstacle)
      const asideMm = radiusMm + reachMm + BESIDE_MM
      return [track.poseAt(atMm).headingRad, directRad].flatMap((headingRad) =>
        [1, -1].map((side) => ({
          xMm: middle.xMm - side * asideMm * Math.sin(headingRad),
          yMm: middle.yMm + side * asideMm * Math.cos(headingRad),
          headingRad,
        })),
      )
    })
}

/** Half of the widest car, and the L²/8R by which the middle of the longest reaches inwards. */
export function reachOf(cars: Plan['cars'], minimumRadiusMm: number): number {
  return Math.max(...cars.map(({ width, length }) => width / 2 + length ** 2 / (8 * minimumRadiusMm)))
}

/** A circle around an obstacle. */
function aroundIt({ outline }: PlacedObstacle): { middle: { xMm: number; yMm: number }; radiusMm: number } {
  if ('centre' in outline) return { middle: outline.centre, radiusMm: outline.radiusMm }
  const middle = { xMm: middleOf(outline, 'xMm'), yMm: middleOf(outline, 'yMm') }
  const away = outline.corners.map(({ xMm, yMm }) => Math.hypot(xMm - middle.xMm, yMm - middle.yMm))
  return { middle, radiusMm: Math.max(...away) }
}

function middleOf({ corners }: Extract<Outline, { corners: unknown }>, axis: 'xMm' | 'yMm'): number {
  const all = corners.map((corner) => corner[axis])
  return (Math.min(...all) + Math.max(...all)) / 2
}
