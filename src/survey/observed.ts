import type { Point } from '../track/sample.ts'
import type { Net, Reading } from './net.ts'

/** Where everything is taken to be; null: not known, and not to be found. */
export interface State {
  readonly places: readonly (Point | null)[]
  readonly elevationsMm: readonly (number | null)[]
}

/** Which unknown is which: for each peg or point the column of its x (that of y follows) and of its elevation; −1: known. */
export interface Columns {
  readonly x: readonly number[]
  readonly z: readonly number[]
  readonly count: number
}

/** A reading at a state: how far it is off, and how it changes with the unknowns. */
export interface Row {
  /** Measured minus what it would be at this state. */
  readonly misclosureMm: number
  readonly errorMm: number
  /** What it would be, if that is a distance; null for a rise, which has no curvature. */
  readonly distanceMm: number | null
  /** Of the unknowns that bear on it. */
  readonly slopes: readonly Slope[]
}

interface Slope {
  readonly column: number
  /** Derivative by it. */
  readonly slope: number
  readonly axis: 'x' | 'y' | 'z'
  /** At the end of the reading, or at its start. */
  readonly end: 1 | -1
}

/**
 * Second derivative of a distance d by two of its unknowns: (e·e′·[same axis] − s·s′)/d, s and s′ its first derivatives, e and
 * e′ +1 at the end and −1 at the start; 0 for a rise.
 */
export function curvatureOf({ distanceMm }: Row, one: Slope, other: Slope): number {
  if (distanceMm === null) return 0
  return ((one.axis === other.axis ? one.end * other.end : 0) - one.slope * other.slope) / distanceMm
}

export function columnsOf({ places, elevationsMm, names }: Net, start: State): Columns {
  let count = 0
  const take = (unknowns: number, isUnknown: boolean) => {
    if (!isUnknown) return -1
    count += unknowns
    return count - unknowns
  }
  const x = names.map((_, index) => take(2, places[index] === null && start.places[index] !== null))
  const z = names.map((_, index) => take(1, elevationsMm[index] === null && start.elevationsMm[index] !== null))
  return { x, z, count }
}

/**
 * The equation of a reading from a to b: a rise is z_b − z_a; a distance √(Δx² + Δy²), and along a slope
 * √(Δx² + Δy² + Δz²), whose derivatives are the cosines Δx/d, Δy/d, Δz/d at b and their negatives at a. Range: the ends are
 * apart. Null where an end is not known. Checked in tests/survey/.
 */
export function rowOf(
  { kind, from, to, isSlope, measuredMm, errorMm }: Reading,
  columns: Columns,
  state: State,
): Row | null {
  const [a, b] = [state.places[from], state.places[to]]
  const [za, zb] = [state.elevationsMm[from], state.elevationsMm[to]]
  const slopes = (axis: Slope['axis'], slope: number): Slope[] =>
    ([-1, 1] as const).flatMap((end) => {
      const point = end === 1 ? to : from
      const column = axis === 'z' ? columns.z[point]! : columns.x[point]!
      return column < 0 ? [] : [{ column: axis === 'y' ? column + 1 : column, slope: end * slope, axis, end }]
    })
  if (kind === 'rise') {
    if (za == null || zb == null) return null
    return { misclosureMm: measuredMm - (zb - za), errorMm, distanceMm: null, slopes: slopes('z', 1) }
  }
  if (!a || !b || (isSlope && (za == null || zb == null))) return null
  const [dx, dy, dz] = [b.xMm - a.xMm, b.yMm - a.yMm, isSlope ? zb! - za! : 0]
  const computedMm = Math.hypot(dx, dy, dz)
  const distanceMm = Math.max(computedMm, Number.MIN_VALUE)
  return {
    misclosureMm: measuredMm - computedMm,
    errorMm,
    distanceMm,
    slopes: [
      ...slopes('x', dx / distanceMm),
      ...slopes('y', dy / distanceMm),
      ...(isSlope ? slopes('z', dz / distanceMm) : []),
    ],
  }
}
