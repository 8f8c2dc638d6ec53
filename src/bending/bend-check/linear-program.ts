import { DualSimplex } from '../../measure/dual-simplex.ts'

/** Rows of a linear programme, given by their products: rows that are sums along a track need not be written out. */
export interface Rows {
  /** row · x of every row, into an array with a place for each. */
  products(x: Float64Array, into: Float64Array): void
  /** Row n itself, into the first places of an array. */
  row(n: number, into: Float64Array): void
}

/**
 * A linear programme in a few unknowns x that minimises two upper bounds: `large` for most of the bands, `small`
 * for those that should not be exceeded at all.
 */
export interface Programme {
  readonly unknowns: number
  /** Band n: |row · x − middle| ≤ allowance + its bound. */
  readonly bands: Rows
  readonly middles: Float64Array
  readonly allowances: Float64Array
  /** 0: the band has the first bound, 1: the second. */
  readonly boundOf: Uint8Array
  /** Each row · x ≥ 0; `unknowns` long. */
  readonly notNegative: readonly Float64Array[]
  /** x ≥ this everywhere. */
  readonly lower: Float64Array
}

export interface Corner {
  readonly x: Float64Array
  /** Bands of the first bound that keep it from being smaller: it would be if any of them were a little wider. */
  readonly decisive: readonly number[]
  /** Rows that are not negative but would be in a better corner if they were dropped. */
  readonly pressing: readonly number[]
  /** Bands that meet in the corner. */
  readonly meeting: readonly number[]
}

/** The remaining work, in multiplications; each step subtracts what it costs. */
export interface Effort {
  left: number
}

/** How far a condition may be violated; the caller keeps its figures near 1. */
const TOLERANCE = 1e-10
/** The cost of each product of the bands. */
const PRODUCT_COST = 10

/** A condition row · z ≥ something; the bands are numbered first, then the rows that are not negative. */
interface Condition {
  readonly condition: number
  /** As long as z; for a band, as in the programme. */
  readonly row: Float64Array
}

/**
 * Smallest (first bound + `secondWeight` × second bound), by the dual simplex method. It starts in the corner where x
 * is at its lower limits and both bounds are 0, which is best without other conditions, and adds the most violated
 * condition until none is violated; each exchange drops the condition that keeps the corner best. All bands are checked
 * only when none of those that were violated before, or are likely to be, is violated.
 *
 * @param likely bands that probably meet in the corner, such as those of a programme much like this one
 * @param effort the cost is subtracted; a programme that was started is finished
 * @returns the best corner, or null when the conditions exclude each other (or the exchanges do not end: the work is
 * bounded)
 */
export function smallestBounds(
  programme: Programme,
  secondWeight: number,
  effort: Effort,
  likely: readonly number[] = [],
): Corner | null {
  const { unknowns, boundOf } = programme
  const size = unknowns + 2
  const bands = programme.middles.length
  const weights = new Float64Array(size)
  weights[unknowns] = 1
  weights[unknowns + 1] = secondWeight
  const lower = new Float64Array(size)
  lower.set(programme.lower)
  const simplex = new DualSimplex(lower, weights)
  const { z, prices, active } = simplex
  const row = new Float64Array(size)
  const products = new Float64Array(bands)
  const looked = [...likely, ...programme.notNegative.map((_, n) => bands + n)].map((n) => conditionOf(programme, n))

  const greedy = 8 * size + 40
  const most = 5 * greedy
  for (let exchange = 0; exchange < most; exchange++) {
    // Taken in turn, the exchanges cannot cycle.
    const inTurn = exchange >= greedy
    let entering = inTurn ? null : mostMissed(programme, z, looked)
    effort.left -= size * size + unknowns * looked.length
    if (!entering) {
      programme.bands.products(z, products)
      effort.left -= PRODUCT_COST * bands
      const band = missedBand(programme, z, products, inTurn)
      if (band >= 0) {
        entering = conditionOf(programme, band)
        looked.push(entering)
      } else if (inTurn)
        entering = looked.find((one) => one.condition >= bands && missedBy(programme, z, one) > TOLERANCE) ?? null
    }
    if (!entering) {
      const taut = [...active].filter((_, k) => prices[k]! > TOLERANCE)
      return {
        x: z.subarray(0, unknowns),
        decisive: taut.filter((n) => n >= 0 && n < bands && boundOf[n] === 0),
        pressing: taut.filter((n) => n >= bands).map((n) => n - bands),
        meeting: [...active].filter((n) => n >= 0 && n < bands),
      }
    }

    const by = writeMissed(programme, z, entering, row)
    if (!simplex.exchange(row, by, entering.condition)) return null
  }
  return null
}

function conditionOf({ unknowns, bands, middles, boundOf, notNegative }: Programme, condition: number): Condition {
  const row = new Float64Array(unknowns + 2)
  if (condition < middles.length) {
    bands.row(condition, row)
    row[unknowns + boundOf[condition]!] = 1
  } else row.set(notNegative[condition - middles.length]!)
  return { condition, row }
}

/** How far row · z is from the middle of its band; of a row that is not negative, row · z. */
function distanceFromMiddle({ unknowns, middles }: Programme, z: Float64Array, { condition, row }: Condition): number {
  let off = condition < middles.length ? -middles[condition]! : 0
  for (let k = 0; k < unknowns; k++) off += row[k]! * z[k]!
  return off
}

function missedBy(programme: Programme, z: Float64Array, one: Condition): number {
  const { unknowns, middles, allowances, boundOf } = programme
  const n = one.condition
  const off = distanceFromMiddle(programme, z, one)
  return n < middles.length ? Math.abs(off) - allowances[n]! - z[unknowns + boundOf[n]!]! : -off
}

function mostMissed(programme: Programme, z: Float64Array, among: readonly Condition[]): Condition | null {
  let most: Condition | null = null
  let by = TOLERANCE
  for (const one of among) {
    const missed = missedBy(programme, z, one)
    if (missed <= by) continue
    by = missed
    most = one
  }
  return most
}

/** The band that is violated most, or the first one that is violated; −1: none is. */
function missedBand(programme: Programme, z: Float64Array, products: Float64Array, first: boolean): number {
  const { unknowns, middles, allowances, boundOf } = programme
  let band = -1
  let by = TOLERANCE
  for (let n = 0; n < middles.length && !(first && band >= 0); n++) {
    const missed = Math.abs(products[n]! - middles[n]!) - allowances[n]! - z[unknowns + boundOf[n]!]!
    if (missed <= by) continue
    by = missed
    band = n
  }
  return band
}

/** Writes a violated condition as `row · z ≥` something, and returns by how much it is violated. */
function writeMissed(programme: Programme, z: Float64Array, one: Condition, row: Float64Array): number {
  row.set(one.row)
  if (distanceFromMiddle(programme, z, one) > 0) for (let k = 0; k < programme.unknowns; k++) row[k] = -row[k]!
  return missedBy(programme, z, one)
}
