/**
 * A sum that keeps what rounding would lose (A. Neumaier, "Rundungsfehleranalyse einiger Verfahren zur Summation
 * endlicher Summen", 1974), so that twelve lengths of 6 ft add up to 72 ft.
 */
export class RunningSum {
  #sum = 0
  #lost = 0

  /** Adds a value and returns the sum so far. */
  add(value: number): number {
    const next = this.#sum + value
    this.#lost += Math.abs(this.#sum) >= Math.abs(value) ? this.#sum - next + value : value - next + this.#sum
    this.#sum = next
    return this.value
  }

  get value(): number {
    return this.#sum + this.#lost
  }
}
