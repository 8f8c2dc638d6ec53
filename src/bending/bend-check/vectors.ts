export function product(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (const [n, value] of a.entries()) sum += value * b[n]!
  return sum
}

/** A vector without its component along a direction of length 1. */
export function without(values: readonly number[], direction: readonly number[]): number[] {
  const along = product(values, direction)
  return values.map((value, n) => value - along * direction[n]!)
}
