/**
 * The readings cut into level stretches by least squares: for each number of steps from 0 up, where the level changes.
 * Found for all of them in one pass (dynamic programming over the station a stretch ends before).
 *
 * @param known the level of the first and of the last stretch where it is known
 * @returns for each number of steps the first station of every stretch but the first
 */
export function levelSteps(
  readings: readonly number[],
  known: { readonly first: number | null; readonly last: number | null },
  mostSteps: number,
): number[][] {
  const stations = readings.length
  const sums = [0]
  const squares = [0]
  for (const [n, reading] of readings.entries()) {
    sums.push(sums[n]! + reading)
    squares.push(squares[n]! + reading * reading)
  }
  const misfit = (from: number, to: number, level: number | null) => {
    const sum = sums[to]! - sums[from]!
    const square = squares[to]! - squares[from]!
    return level === null ? square - (sum * sum) / (to - from) : square - 2 * level * sum + level * level * (to - from)
  }

  const found: number[][] = [[]]
  let best = Array.from({ length: stations + 1 }, (_, to) => (to === 0 ? 0 : misfit(0, to, known.first)))
  const begins: number[][] = []
  for (let steps = 1; steps <= Math.min(mostSteps, stations - 1); steps++) {
    const next = new Array<number>(stations + 1).fill(Number.POSITIVE_INFINITY)
    const begin = new Array<number>(stations + 1).fill(steps)
    let last = { from: steps, total: Number.POSITIVE_INFINITY }
    for (let from = steps; from < stations; from++) {
      for (let to = from + 1; to <= stations; to++) {
        const total = best[from]! + misfit(from, to, null)
        if (total < next[to]!) {
          next[to] = total
          begin[to] = from
        }
      }
      const total = best[from]! + misfit(from, stations, known.last)
      if (total < last.total) last = { from, total }
    }
    const changes = [last.from]
    for (let step = steps - 2; step >= 0; step--) changes.unshift(begins[step]![changes[0]!]!)
    found.push(changes)
    begins.push(begin)
    best = next
  }
  return found
}
