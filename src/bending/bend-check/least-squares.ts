const DIFFERENCE = 1e-4
/** A pass that reduces the sum by less than this share of it is the last. */
const SETTLED = 1e-4

/**
 * The values for which Σ weight·rest² is least, near a start: Gauss–Newton steps, damped as long as they do not help
 * (Levenberg–Marquardt), with derivatives by differences. Source: Marquardt 1963; tests/bending/bend-check/least-squares.test.ts.
 *
 * @param rest null where the values are impossible; the start is not
 * @param weights 0 where the rest does not count, whatever it is
 */
export function leastSquares(
  rest: (values: readonly number[]) => readonly number[] | null,
  start: readonly number[],
  weights: readonly number[],
  mostPasses: number,
): number[] {
  let values = [...start]
  let here = rest(values)
  if (!here) return values
  let sum = weighted(here, weights)
  let damping = 1e-3
  for (let pass = 0; pass < mostPasses; pass++) {
    const step = normalEquations(rest, values, here, weights)
    let found = false
    for (; damping < 1e9 && !found; damping *= 8) {
      const change = solved(step.matrix, step.right, damping)
      const next = values.map((value, k) => value + change[k]!)
      const there = rest(next)
      const reduced = there ? weighted(there, weights) : Number.POSITIVE_INFINITY
      if (!there || !(reduced < sum)) continue
      found = reduced < sum * (1 - SETTLED)
      values = next
      here = there
      sum = reduced
      damping /= 64
      if (!found) return values
    }
    if (!found) return values
  }
  return values
}

function weighted(rest: readonly number[], weights: readonly number[]): number {
  let sum = 0
  for (let n = 0; n < rest.length; n++) if (weights[n]! > 0) sum += weights[n]! * rest[n]! * rest[n]!
  return sum
}

function normalEquations(
  rest: (values: readonly number[]) => readonly number[] | null,
  values: readonly number[],
  here: readonly number[],
  weights: readonly number[],
) {
  const moved = [...values]
  const columns = values.map((value, k) => {
    let by = DIFFERENCE
    moved[k] = value + by
    let there = rest(moved)
    if (!there) {
      by = -DIFFERENCE
      moved[k] = value + by
      there = rest(moved)
    }
    moved[k] = value
    const column = new Float64Array(here.length)
    if (there) for (let n = 0; n < here.length; n++) if (weights[n]! > 0) column[n] = (here[n]! - there[n]!) / by
    return column
  })
  const matrix = columns.map(() => new Float64Array(values.length))
  const right = new Float64Array(values.length)
  const weightedColumn = new Float64Array(here.length)
  for (const [i, a] of columns.entries()) {
    for (let n = 0; n < here.length; n++) weightedColumn[n] = weights[n]! * a[n]!
    for (let n = 0; n < here.length; n++) if (weights[n]! > 0) right[i]! += weightedColumn[n]! * here[n]!
    for (let j = 0; j <= i; j++) {
      const b = columns[j]!
      let sum = 0
      for (let n = 0; n < here.length; n++) sum += weightedColumn[n]! * b[n]!
      matrix[i]![j] = sum
    }
  }
  return { matrix, right }
}

/**
 * Solves (matrix + damping·its diagonal)·x = right by Cholesky's method; what nothing depends on stays 0.
 *
 * @param matrix symmetric; only its lower half is read
 */
function solved(matrix: readonly Float64Array[], right: Float64Array, damping: number): Float64Array {
  const size = right.length
  const lower = matrix.map(() => new Float64Array(size))
  const x = new Float64Array(size)
  for (let i = 0; i < size; i++) {
    const row = lower[i]!
    for (let j = 0; j < i; j++) {
      let sum = matrix[i]![j]!
      for (let k = 0; k < j; k++) sum -= row[k]! * lower[j]![k]!
      row[j] = sum / lower[j]![j]!
    }
    let sum = matrix[i]![i]! * (1 + damping)
    for (let k = 0; k < i; k++) sum -= row[k]! ** 2
    row[i] = sum > 1e-12 ? Math.sqrt(sum) : Number.POSITIVE_INFINITY
  }
  for (let i = 0; i < size; i++) {
    let sum = right[i]!
    for (let k = 0; k < i; k++) sum -= lower[i]![k]! * x[k]!
    x[i] = sum / lower[i]![i]!
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i]!
    for (let k = i + 1; k < size; k++) sum -= lower[k]![i]! * x[k]!
    x[i] = sum / lower[i]![i]!
  }
  return x
}
