/** Smallest share of an active condition that counts in the ratio test. */
const SMALLEST_PIVOT = 1e-11

/**
 * A linear programme solved by the dual simplex method, one condition after another: the smallest weights · z with z at
 * its lower limits or above and every condition row · z ≥ something met. It starts at the lower limits; whoever calls it
 * looks for a condition that is missed and takes it up by an exchange, until none is. Each exchange costs (unknowns)².
 *
 * Textbook method (Lemke 1954); tests/measure/dual-simplex.test.ts checks it against programmes solved by hand.
 */
export class DualSimplex {
  readonly z: Float64Array
  /** What each active condition costs: by how much the value would fall, were it one less. */
  readonly prices: Float64Array
  /** The condition that is active in each place, as it was named; −1: a lower limit. */
  readonly active: Int32Array
  /** Row k: the way z moves when active condition k is let go. */
  private readonly ways: Float64Array
  private readonly shares: Float64Array

  /** @param weights each ≥ 0 */
  constructor(lower: ArrayLike<number>, weights: ArrayLike<number>) {
    const size = weights.length
    this.z = Float64Array.from(lower)
    this.prices = Float64Array.from(weights)
    this.active = new Int32Array(size).fill(-1)
    this.ways = new Float64Array(size * size)
    for (let k = 0; k < size; k++) this.ways[k * size + k] = 1
    this.shares = new Float64Array(size)
  }

  /**
   * Takes up a condition that is missed, and lets go the one that keeps the value smallest.
   *
   * @param row its coefficients
   * @param by how much row · z must grow, > 0
   * @returns false when no z meets all the conditions taken up
   */
  exchange(row: ArrayLike<number>, by: number, condition: number): boolean {
    const { z, prices, ways, shares } = this
    const size = z.length
    let leaving = -1
    let least = Number.POSITIVE_INFINITY
    for (let k = 0; k < size; k++) {
      const way = k * size
      let share = 0
      for (let i = 0; i < size; i++) share += row[i]! * ways[way + i]!
      shares[k] = share
      if (share <= SMALLEST_PIVOT) continue
      const ratio = prices[k]! / share
      if (ratio < least - 1e-14 || (ratio <= least + 1e-14 && share > shares[leaving]!)) {
        leaving = k
        least = Math.min(least, ratio)
      }
    }
    if (leaving < 0) return false

    const pivot = shares[leaving]!
    const way = leaving * size
    for (let i = 0; i < size; i++) {
      ways[way + i]! /= pivot
      z[i]! += by * ways[way + i]!
    }
    const taken = prices[leaving]! / pivot
    for (let k = 0; k < size; k++) {
      const share = shares[k]!
      if (k === leaving || share === 0) continue
      prices[k] = Math.max(0, prices[k]! - taken * share)
      const other = k * size
      for (let i = 0; i < size; i++) ways[other + i]! -= share * ways[way + i]!
    }
    prices[leaving] = taken
    this.active[leaving] = condition
    return true
  }
}
