/** A symmetric matrix of n rows, row by row. */
export interface Matrix {
  readonly size: number
  readonly values: Float64Array
}

/**
 * The triangle L with L·Lᵀ = A, of a positive definite matrix; null where A is not one, as far as its digits show.
 * Source: Cholesky's method, as in any textbook of numerical analysis; checked in tests/survey/parts.test.ts.
 */
export function choleskyOf({ size, values }: Matrix): Matrix | null {
  const lower = new Float64Array(size * size)
  for (let row = 0; row < size; row++)
    for (let column = 0; column <= row; column++) {
      let left = values[row * size + column]!
      for (let k = 0; k < column; k++) left -= lower[row * size + k]! * lower[column * size + k]!
      if (row !== column) lower[row * size + column] = left / lower[column * size + column]!
      else if (left > LEAST_PIVOT * values[row * size + row]!) lower[row * size + row] = Math.sqrt(left)
      else return null
    }
  return { size, values: lower }
}

/** What is left of a diagonal when nothing but rounding is. */
const LEAST_PIVOT = 1e-13

/** x with L·Lᵀ·x = b. */
export function solvedBy({ size, values }: Matrix, right: readonly number[]): number[] {
  const x = [...right]
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < row; k++) x[row]! -= values[row * size + k]! * x[k]!
    x[row]! /= values[row * size + row]!
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) x[row]! -= values[k * size + row]! * x[k]!
    x[row]! /= values[row * size + row]!
  }
  return x
}

/** The inverse of L·Lᵀ. */
export function inverseBy(lower: Matrix): Matrix {
  const { size } = lower
  const values = new Float64Array(size * size)
  for (let column = 0; column < size; column++) {
    const unit = Array.from({ length: size }, (_, row) => (row === column ? 1 : 0))
    for (const [row, value] of solvedBy(lower, unit).entries()) values[row * size + column] = value
  }
  return { size, values }
}
