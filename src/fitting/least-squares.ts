/**
 * The steps that come nearest to what is wanted: Σ stepᵢ·columnᵢ ≈ wanted, by the normal equations for one or two
 * columns and by Cramer's rule for three; null where the columns do not determine them (they are parallel, or lie in a plane).
 *
 * Checked through what is solved with it, in tests/fitting/closings.test.ts and tests/fitting/unknowns.test.ts.
 */
export function leastSquares(columns: readonly number[][], wanted: readonly number[]): number[] | null {
  const dot = (a: readonly number[], b: readonly number[]) => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!
  const lengths = columns.map((column) => Math.sqrt(dot(column, column)))
  const units = columns.map((column, index) => column.map((value) => value / lengths[index]!))
  const right = units.map((unit) => dot(unit, wanted))
  const [a, b, c] = units
  if (!a || !(Math.min(...lengths) > 0)) return null
  if (!b) return [right[0]! / lengths[0]!]
  if (!c) {
    const ab = dot(a, b)
    const determinant = 1 - ab * ab
    if (!(determinant > 1e-9)) return null
    return [
      (right[0]! - ab * right[1]!) / determinant / lengths[0]!,
      (right[1]! - ab * right[0]!) / determinant / lengths[1]!,
    ]
  }
  const determinant = triple(a, b, c)
  if (!(Math.abs(determinant) > 1e-6)) return null
  return [triple(wanted, b, c), triple(a, wanted, c), triple(a, b, wanted)].map(
    (value, index) => value / determinant / lengths[index]!,
  )
}

function triple(a: readonly number[], b: readonly number[], c: readonly number[]): number {
  return (
    a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) -
    a[1]! * (b[0]! * c[2]! - b[2]! * c[0]!) +
    a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!)
  )
}
