export function product(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (const [n, value] of a.entries()) sum += value * b[n]!
  return sum
}

/** What of a vector is left once its part along a direction of length 1 is taken out. */
export function without(values: readonly number[], direction: readonly number[]): number[] {
  const along = product(values, direction)
  return values.map((value, n) => value - along * direction[n]!)
}
