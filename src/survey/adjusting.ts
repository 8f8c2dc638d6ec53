import type { Point } from '../track/sample.ts'
import { choleskyOf, inverseBy, type Matrix, solvedBy } from './cholesky.ts'
import type { Net, Reading } from './net.ts'
import { type Columns, columnsOf, curvatureOf, type Row, rowOf, type State } from './observed.ts'

export interface Adjusted {
  readonly places: readonly (Point | null)[]
  readonly elevationsMm: readonly (number | null)[]
  /** Of the unknowns, mm²; null where there are none. */
  readonly covariance: Matrix | null
  readonly columns: Columns
  /** Of each reading; null for one that cannot be used. */
  readonly rows: readonly (Row | null)[]
  /** Σ((measured − adjusted)/σ)². */
  readonly sumOfSquares: number
}

/** A step shorter than this is the last; a net of kilometres has digits to 1e-10 mm. */
const SETTLED_MM = 1e-9
const MOST_STEPS = 200
const MOST_HALVINGS = 40

/**
 * The places and elevations for which the sum of the squares of all residuals, each in units of its standard deviation,
 * is least. Gauss–Newton steps N·Δ = Aᵀ·P·l with N = Aᵀ·P·A, P = diag(1/σ²). With slips of metres these come near the end
 * too slowly, so N also gets the curvature of the distances, −Σ P·l·∂²f, where it stays positive definite (Newton's step). A
 * step that would raise the sum is halved until it does not. It ends when a whole step moves nothing by more than 1e-9 mm. The covariance of the unknowns is N⁻¹,
 * with the errors as they were stated, not as the residuals suggest. Source: Ghilani, *Adjustment Computations*, chapters
 * 11 to 16 (methods, from memory); checked against another library and by Monte Carlo in tests/survey/.
 *
 * @param start the rough places and elevations; null stays null
 * @returns null where it does not settle, or the readings do not hold a point
 */
export function adjusted(net: Net, start: State): Adjusted | null {
  const columns = columnsOf(net, start)
  let state = start
  let rows = rowsAt(net.readings, columns, state)
  if (columns.count === 0) return { ...state, columns, rows, covariance: null, sumOfSquares: sumOf(rows) }
  for (let step = 0; step < MOST_STEPS; step++) {
    const { normal, curved, right } = normalEquations(rows, columns.count)
    const lower = choleskyOf(normal)
    if (!lower) return null
    const change = solvedBy(choleskyOf(curved) ?? lower, right)
    const sumOfSquares = sumOf(rows)
    if (Math.max(...change.map(Math.abs)) <= SETTLED_MM)
      return { ...state, columns, rows, covariance: inverseBy(lower), sumOfSquares }
    const next = damped(net.readings, columns, state, change, sumOfSquares)
    state = next.state
    rows = next.rows
  }
  return null
}

/** The state after a step, or after as much of it as lowers the sum. */
function damped(
  readings: readonly Reading[],
  columns: Columns,
  state: State,
  change: readonly number[],
  sum: number,
): { state: State; rows: (Row | null)[] } {
  let share = 1
  for (let halving = 0; ; halving++, share /= 2) {
    const next = moved(state, columns, change, share)
    const rows = rowsAt(readings, columns, next)
    // Near the end the sum no longer changes in its digits, and the step is good all the same.
    if (sumOf(rows) <= sum * (1 + 1e-9) || halving === MOST_HALVINGS) return { state: next, rows }
  }
}

function moved({ places, elevationsMm }: State, { x, z }: Columns, change: readonly number[], share: number): State {
  const by = (column: number) => share * change[column]!
  return {
    places: places.map((place, index) => {
      const column = x[index]!
      return place && column >= 0 ? { xMm: place.xMm + by(column), yMm: place.yMm + by(column + 1) } : place
    }),
    elevationsMm: elevationsMm.map((elevationMm, index) => {
      const column = z[index]!
      return elevationMm !== null && column >= 0 ? elevationMm + by(column) : elevationMm
    }),
  }
}

function rowsAt(readings: readonly Reading[], columns: Columns, state: State): (Row | null)[] {
  return readings.map((reading) => rowOf(reading, columns, state))
}

function sumOf(rows: readonly (Row | null)[]): number {
  return rows.reduce((sum, row) => sum + (row ? (row.misclosureMm / row.errorMm) ** 2 : 0), 0)
}

/** N, the same with the curvature of the distances, and Aᵀ·P·l. */
function normalEquations(rows: readonly (Row | null)[], size: number) {
  const normal = { size, values: new Float64Array(size * size) }
  const curved = { size, values: new Float64Array(size * size) }
  const right = new Array<number>(size).fill(0)
  for (const row of rows) {
    if (!row) continue
    const weight = 1 / row.errorMm ** 2
    for (const one of row.slopes) {
      right[one.column]! += weight * one.slope * row.misclosureMm
      for (const other of row.slopes) {
        const place = one.column * size + other.column
        const product = one.slope * other.slope
        normal.values[place]! += weight * product
        curved.values[place]! += weight * (product - row.misclosureMm * curvatureOf(row, one, other))
      }
    }
  }
  return { normal, curved, right }
}
