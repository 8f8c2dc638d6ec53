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
  /** Column and derivative, of the unknowns that bear on it. */
  readonly slopes: readonly (readonly [number, number])[]
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
  const row = (computedMm: number, byX: number, byY: number, byZ: number): Row => ({
    misclosureMm: measuredMm - computedMm,
    errorMm,
    slopes: (
      [
        [columns.x[from]!, 0, -byX],
        [columns.x[from]!, 1, -byY],
        [columns.z[from]!, 0, -byZ],
        [columns.x[to]!, 0, byX],
        [columns.x[to]!, 1, byY],
        [columns.z[to]!, 0, byZ],
      ] as const
    ).flatMap(([column, more, slope]) => (column < 0 || slope === 0 ? [] : [[column + more, slope] as const])),
  })
  if (kind === 'rise') return za == null || zb == null ? null : row(zb - za, 0, 0, 1)
  if (!a || !b || (isSlope && (za == null || zb == null))) return null
  const [dx, dy, dz] = [b.xMm - a.xMm, b.yMm - a.yMm, isSlope ? zb! - za! : 0]
  const computedMm = Math.hypot(dx, dy, dz)
  const d = Math.max(computedMm, Number.MIN_VALUE)
  return row(computedMm, dx / d, dy / d, dz / d)
}
