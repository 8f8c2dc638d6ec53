/** Chains that may be laid, by kinds of runs: which runs, from which sticks, and the waste. */
export class Candidates {
  readonly kinds: (readonly number[])[] = []
  readonly wasteMm: number[] = []
  readonly sticks: (readonly number[])[] = []
  private readonly names = new Set<string>()

  get count(): number {
    return this.kinds.length
  }

  /** Adds a chain that is not in the list yet. */
  push(kinds: readonly number[], sticks: readonly number[], wasteMm: number): void {
    this.kinds.push([...kinds].sort((a, b) => a - b))
    this.wasteMm.push(wasteMm)
    this.sticks.push(sticks)
  }

  /** @returns whether it was not in the list yet */
  add(kinds: readonly number[], sticks: readonly number[], wasteMm: number): boolean {
    const sorted = [...kinds].sort((a, b) => a - b)
    const name = `${sorted.join()}|${sticks.join()}`
    if (this.names.has(name)) return false
    this.names.add(name)
    this.push(sorted, sticks, wasteMm)
    return true
  }
}
