/** The smallest useful difference between two numbers, relative to their size. */
const RELATIVE_TOLERANCE = 2e-16

/**
 * A zero of `f` between `a` and `b`, to the last digit or two, or to `within`. T. R. Chandrupatla, "A new hybrid quadratic/bisection
 * algorithm for finding the zero of a nonlinear function without using derivatives", *Advances in Engineering Software*
 * 28 (1997): inverse quadratic steps where the last three points allow them, bisection otherwise, so it never leaves
 * the bracket. Checked in tests/bending/numeric/root.test.ts.
 *
 * @param within the error that does not matter, in units of x
 * @throws RangeError when `f` has the same sign at both ends: the caller must bracket
 */
export function rootBetween(f: (x: number) => number, a: number, b: number, within = 0): number {
  let [x1, x2] = [a, b]
  let [f1, f2] = [f(a), f(b)]
  if (f1 === 0) return x1
  if (f2 === 0) return x2
  if (!(f1 < 0 !== f2 < 0) || Number.isNaN(f1 + f2)) throw new RangeError('no change of sign between the ends')
  let x3 = x1
  let f3 = f1
  let step = 0.5
  for (;;) {
    const x = x1 + step * (x2 - x1)
    const fx = f(x)
    if (fx < 0 === f1 < 0) {
      x3 = x1
      f3 = f1
    } else {
      x3 = x2
      f3 = f2
      x2 = x1
      f2 = f1
    }
    x1 = x
    f1 = fx
    const best = Math.abs(f2) < Math.abs(f1) ? x2 : x1
    const least = RELATIVE_TOLERANCE * Math.abs(best) + Math.max(within, Number.MIN_VALUE)
    const resolved = least / Math.abs(x2 - x1)
    if (resolved > 0.5 || f1 === 0) return best
    step = Math.min(Math.max(nextStep(x1, x2, x3, f1, f2, f3), resolved), 1 - resolved)
  }
}

/** Chandrupatla's test whether inverse quadratic interpolation is reliable; otherwise half way. */
function nextStep(x1: number, x2: number, x3: number, f1: number, f2: number, f3: number): number {
  const xi = (x1 - x2) / (x3 - x2)
  const phi = (f1 - f2) / (f3 - f2)
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5
  return (f1 / (f2 - f1)) * (f3 / (f2 - f3)) + ((x3 - x1) / (x2 - x1)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
}

/**
 * The first of from, 2·from, 4·from … at which `reached` holds; null when none of the first `doublings` does.
 */
export function firstDoubling(from: number, reached: (x: number) => boolean, doublings = 1100): number | null {
  let x = from
  for (let n = 0; n <= doublings && Number.isFinite(x); n++) {
    if (reached(x)) return x
    x *= 2
  }
  return null
}

/**
 * Where a rising function is nearly zero, in few steps: false position with the Illinois rule (the value of an end that
 * stays is halved), until |f| ≤ `least`. For functions that take long; checked in tests/bending/numeric/root.test.ts.
 *
 * @param low with f(low) ≤ 0
 * @param high with f(high) ≥ 0
 */
export function nearlyZero(f: (x: number) => number, low: number, high: number, least: number): number {
  let [x1, x2, f1, f2] = [low, high, f(low), f(high)]
  if (f1 >= -least) return x1
  if (f2 <= least) return x2
  let moved = 0
  for (let step = 0; step < MOST_STEPS; step++) {
    const x = x1 + ((x2 - x1) * f1) / (f1 - f2)
    const fx = f(x)
    if (Math.abs(fx) <= least || x <= x1 || x >= x2) return x
    if (fx < 0) [x1, f1, f2] = [x, fx, moved === 1 ? f2 / 2 : f2]
    else [x2, f2, f1] = [x, fx, moved === 2 ? f1 / 2 : f1]
    moved = fx < 0 ? 1 : 2
  }
  return (x1 + x2) / 2
}

const MOST_STEPS = 100
