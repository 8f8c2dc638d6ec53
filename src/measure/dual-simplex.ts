/** Smallest share of an active condition that counts in the ratio test. */
const SMALLEST_PIVOT = 1e-11

/**
 * A linear programme solved by the dual simplex method, one condition after another: the smallest weights · z with z at
 * its lower limits or above and every condition row · z ≥ something met. It starts at the lower limits; the caller
 * looks for a condition that is not met and adds it by an exchange, until all are met. Each exchange costs (unknowns)².
 *
 * Textbook method (Lemke 1954); tests/measure/dual-simplex.test.ts checks it against programmes solved by hand.
 */
export class DualSimplex {
  readonly z: Float64Array
  /** The price of each active condition: how much the value would fall if the condition were one less. */
  readonly prices: Float64Array
  /** The condition that is active in each place, as the caller numbered it; −1: a lower limit. */
  readonly active: Int32Array
  /** Row k: the direction in which z moves when active condition k is dropped. */
  private readonly directions: Float64Array
  private readonly shares: Float64Array

  /** @param weights each ≥ 0 */
  constructor(lower: ArrayLike<number>, weights: ArrayLike<number>) {
    const size = weights.length
    this.z = Float64Array.from(lower)
    this.prices = Float64Array.from(weights)
    this.active = new Int32Array(size).fill(-1)
    this.directions = new Float64Array(size * size)
    for (let k = 0; k < size; k++) this.directions[k * size + k] = 1
    this.shares = new Float64Array(size)
  }

  /**
   * Adds a condition that is not met, and drops the one that keeps the value smallest.
   *
   * @param row its coefficients
   * @param by how much row · z must grow, > 0
   * @returns false when no z meets all the conditions added
   */
  exchange(row: ArrayLike<number>, by: number, condition: number): boolean {
    const { z, prices, directions, shares } = this
    const size = z.length
    let leaving = -1
    let least = Number.POSITIVE_INFINITY
    for (let k = 0; k < size; k++) {
      const offset = k * size
      let share = 0
      for (let i = 0; i < size; i++) share += row[i]! * directions[offset + i]!
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
    const offset = leaving * size
    for (let i = 0; i < size; i++) {
      directions[offset + i]! /= pivot
      z[i]! += by * directions[offset + i]!
    }
    const taken = prices[leaving]! / pivot
    for (let k = 0; k < size; k++) {
      const share = shares[k]!
      if (k === leaving || share === 0) continue
      prices[k] = Math.max(0, prices[k]! - taken * share)
      const other = k * size
      for (let i = 0; i < size; i++) directions[other + i]! -= share * directions[offset + i]!
    }
    prices[leaving] = taken
    this.active[leaving] = condition
    return true
  }
}
