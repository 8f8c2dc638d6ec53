import { firstIndexWhere } from '../measure/search.ts'
import type { Turn } from '../plan/rows/track.ts'
import { curvatureOn, reversalMm } from '../track/place.ts'
import { type RailLine, railDistanceAt, stationAtRailDistance } from '../track/rails.ts'
import type { PlacedElement } from '../track/types.ts'
import type { BendMark } from './cutting.ts'

/** A stretch of a rail that is bent one way, by distance along that rail. */
export interface BentStretch {
  readonly fromMm: number
  readonly toMm: number
  readonly turn: Turn
  readonly element: PlacedElement
}

/** The bent stretches of a rail in order; an easement that reverses counts as two. */
export function bentStretches(placed: readonly PlacedElement[], rail: RailLine): BentStretch[] {
  return placed.flatMap((element): BentStretch[] => {
    const { fromMm, toMm } = rail.elements[element.index]!
    const { startCurvature, endCurvature } = element
    if (startCurvature === 0 && endCurvature === 0) return []
    const reversal = reversalMm(element)
    if (reversal === null) return [{ fromMm, toMm, turn: turnOf(startCurvature || endCurvature), element }]
    const middleMm = railDistanceAt(rail, reversal)
    return [
      { fromMm, toMm: middleMm, turn: turnOf(startCurvature), element },
      { fromMm: middleMm, toMm, turn: turnOf(endCurvature), element },
    ]
  })
}

/**
 * Where on a piece its bends begin and end: from the piece's own start, and from its sawn end, which is longer by the
 * trim at its start.
 *
 * @param stretches the bent stretches of the piece's rail, in order
 */
export function bendMarks(
  rail: RailLine,
  stretches: readonly BentStretch[],
  piece: { readonly fromMm: number; readonly lengthMm: number; readonly trimStartMm: number },
): BendMark[] {
  const endMm = piece.fromMm + piece.lengthMm
  return stretchesBetween(stretches, piece.fromMm, endMm).map((stretch) => {
    const fromMm = Math.max(stretch.fromMm, piece.fromMm)
    const toMm = Math.min(stretch.toMm, endMm)
    return {
      fromMm: fromMm - piece.fromMm,
      toMm: toMm - piece.fromMm,
      markFromMm: fromMm - piece.fromMm + piece.trimStartMm,
      markToMm: toMm - piece.fromMm + piece.trimStartMm,
      ...radii(rail, stretch, fromMm, toMm),
      turn: stretch.turn,
    }
  })
}

/** The parts of bent stretches between two places of their rail. */
function stretchesBetween(stretches: readonly BentStretch[], fromMm: number, toMm: number): BentStretch[] {
  const found: BentStretch[] = []
  for (let index = firstEndingAfter(stretches, fromMm); index < stretches.length; index++) {
    const stretch = stretches[index]!
    if (stretch.fromMm >= toMm - SHORTEST_MARK_MM) break
    if (Math.min(stretch.toMm, toMm) - Math.max(stretch.fromMm, fromMm) >= SHORTEST_MARK_MM) found.push(stretch)
  }
  return found
}

/** A shorter bend on a piece is the rounding error of a joint exactly at the end of the bend. */
const SHORTEST_MARK_MM = 1e-6

function radii(rail: RailLine, { element }: BentStretch, fromMm: number, toMm: number) {
  if (element.kind === 'arc') return { radiusMm: radiusOnRail(rail, element.startCurvature) }
  const radiusAt = (distanceMm: number) =>
    radiusOnRail(rail, curvatureOn(element, stationAtRailDistance(rail, distanceMm)))
  return { radiusMm: null, startRadiusMm: radiusAt(fromMm), endRadiusMm: radiusAt(toMm) }
}

/**
 * Radius of the rail's own line where the centre line has curvature κ: |1/κ − o|, o the rail's offset, left positive;
 * null where it is straight.
 */
function radiusOnRail(rail: RailLine, curvature: number): number | null {
  return Math.abs(curvature) < STRAIGHT_PER_MM ? null : Math.abs(1 / curvature - rail.offsetLeftMm)
}

/** A radius of a thousand kilometres counts as straight. */
const STRAIGHT_PER_MM = 1e-9

function turnOf(curvature: number): Turn {
  return curvature > 0 ? 'left' : 'right'
}

function firstEndingAfter(stretches: readonly BentStretch[], distanceMm: number): number {
  return firstIndexWhere(stretches.length, (index) => stretches[index]!.toMm > distanceMm)
}
