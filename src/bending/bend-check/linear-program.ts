/**
 * A linear programme in a few unknowns x with two upper bounds to be made small: `large` for most of the bands, `small`
 * for those that should not be exceeded at all. Rows follow one another, each as long as x.
 */
export interface Programme {
  readonly unknowns: number
  /** Band n: |row · x − middle| ≤ allowance + the bound that goes with it. */
  readonly bands: Float64Array
  readonly middles: Float64Array
  readonly allowances: Float64Array
  /** 0: the band goes with the first bound, 1: with the second. */
  readonly boundOf: Uint8Array
  /** Each row · x ≥ 0. */
  readonly notNegative: Float64Array
  /** x ≥ this everywhere. */
  readonly lower: Float64Array
}

export interface Corner {
  readonly x: Float64Array
  /** Bands of the first bound that keep it from being smaller: were any of them a little wider, it would be. */
  readonly decisive: readonly number[]
  /** Rows that are not negative and would be, were they let go, with a better corner. */
  readonly pressing: readonly number[]
}

/** How far a condition may be missed; the caller keeps its figures near 1. */
const TOLERANCE = 1e-10
/** Smallest share of an active condition that counts in the ratio test. */
const SMALLEST_PIVOT = 1e-11

/**
 * Smallest (first bound + `secondWeight` × second bound), by the dual simplex method. It starts in the corner where x is
 * at its lower limits and both bounds are 0, which is best while nothing else is asked, and takes up the most missed
 * condition until none is missed; each exchange lets go the condition that keeps the corner best. An exchange costs
 * (unknowns)² + unknowns × conditions.
 *
 * @returns the best corner, or null when the conditions exclude each other (or the exchanges do not end: the work is
 * bounded)
 */
export function smallestBounds(programme: Programme, secondWeight: number): Corner | null {
  const { unknowns } = programme
  const size = unknowns + 2
  const bands = programme.middles.length
  const z = new Float64Array(size)
  z.set(programme.lower)
  const price = new Float64Array(size)
  price[unknowns] = 1
  price[unknowns + 1] = secondWeight
  const active = new Int32Array(size).fill(-1)
  // Row k: the way z moves when active condition k is let go (column k of the inverse of the active rows).
  const ways = new Float64Array(size * size)
  for (let k = 0; k < size; k++) ways[k * size + k] = 1
  const share = new Float64Array(size)
  const row = new Float64Array(size)

  const greedy = 8 * size + 40
  const most = 5 * greedy
  for (let exchange = 0; exchange < most; exchange++) {
    const entering = takeMissed(programme, z, row, exchange >= greedy)
    if (entering === NOTHING) {
      const taut = [...active].filter((_, k) => price[k]! > TOLERANCE)
      return {
        x: z.subarray(0, unknowns),
        decisive: taut.filter((n) => n >= 0 && n < bands && programme.boundOf[n] === 0),
        pressing: taut.filter((n) => n >= bands).map((n) => n - bands),
      }
    }

    let leaving = -1
    let least = Number.POSITIVE_INFINITY
    for (let k = 0; k < size; k++) {
      const way = k * size
      let sum = 0
      for (let i = 0; i < size; i++) sum += row[i]! * ways[way + i]!
      share[k] = sum
      if (sum <= SMALLEST_PIVOT) continue
      const ratio = price[k]! / sum
      if (ratio < least - 1e-14 || (ratio <= least + 1e-14 && sum > share[leaving]!)) {
        leaving = k
        least = Math.min(least, ratio)
      }
    }
    if (leaving < 0) return null

    const pivot = share[leaving]!
    const way = leaving * size
    for (let i = 0; i < size; i++) {
      ways[way + i]! /= pivot
      z[i]! += entering.by * ways[way + i]!
    }
    const taken = price[leaving]! / pivot
    for (let k = 0; k < size; k++) {
      const part = share[k]!
      if (k === leaving || part === 0) continue
      price[k] = Math.max(0, price[k]! - taken * part)
      const other = k * size
      for (let i = 0; i < size; i++) ways[other + i]! -= part * ways[way + i]!
    }
    price[leaving] = taken
    active[leaving] = entering.condition
  }
  return null
}

const NOTHING = { condition: -1, by: 0 } as const

/**
 * Writes the most missed condition into `row`, as `row · z ≥` something, and says by how much it is missed and which
 * it is, the bands counted first. With `first` it takes the first one missed: in that order the exchanges cannot go round
 * in circles.
 */
function takeMissed(programme: Programme, z: Float64Array, row: Float64Array, first: boolean) {
  const { unknowns, bands, middles, allowances, boundOf, notNegative } = programme
  const bandCount = middles.length
  const rowCount = notNegative.length / unknowns
  let by = TOLERANCE
  let condition = -1
  let sign = 0
  for (let n = 0, from = 0; n < bandCount && !(first && condition >= 0); n++, from += unknowns) {
    let off = -middles[n]!
    for (let k = 0; k < unknowns; k++) off += bands[from + k]! * z[k]!
    const missing = Math.abs(off) - allowances[n]! - z[unknowns + boundOf[n]!]!
    if (missing > by) {
      by = missing
      condition = n
      sign = off > 0 ? -1 : 1
    }
  }
  for (let n = 0, from = 0; n < rowCount && !(first && condition >= 0); n++, from += unknowns) {
    let missing = 0
    for (let k = 0; k < unknowns; k++) missing -= notNegative[from + k]! * z[k]!
    if (missing > by) {
      by = missing
      condition = bandCount + n
    }
  }
  if (condition < 0) return NOTHING
  const isBand = condition < bandCount
  const at = (isBand ? condition : condition - bandCount) * unknowns
  for (let k = 0; k < unknowns; k++) row[k] = isBand ? sign * bands[at + k]! : notNegative[at + k]!
  row[unknowns] = isBand && boundOf[condition] === 0 ? 1 : 0
  row[unknowns + 1] = isBand && boundOf[condition] === 1 ? 1 : 0
  return { condition, by }
}
