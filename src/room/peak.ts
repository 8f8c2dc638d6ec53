const GOLDEN = (Math.sqrt(5) - 1) / 2
const MOST_STEPS = 60

/**
 * Where a function is largest between two places, by golden section; it has to rise to one peak there and fall from it.
 * Its largest value at an end is found as well.
 */
export function peakBetween(
  valueAt: (at: number) => number,
  from: number,
  to: number,
  closeEnough: number,
): { readonly at: number; readonly value: number } {
  const looked = (at: number) => ({ at, value: valueAt(at) })
  const ends = [looked(from), looked(to)]
  let [low, high] = [from, to]
  let one = looked(high - GOLDEN * (high - low))
  let other = looked(low + GOLDEN * (high - low))
  for (let step = 0; step < MOST_STEPS && high - low > closeEnough; step++)
    if (one.value >= other.value) {
      high = other.at
      other = one
      one = looked(high - GOLDEN * (high - low))
    } else {
      low = one.at
      one = other
      other = looked(low + GOLDEN * (high - low))
    }
  return [one, other, ...ends].reduce((best, each) => (each.value > best.value ? each : best))
}
