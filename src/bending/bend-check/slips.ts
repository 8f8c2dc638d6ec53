import { product, without } from './vectors.ts'

/** A reading that does not fit its neighbours, and the value they suggest. */
export interface Slip {
  readonly station: number
  readonly expectedMm: number
}

/** A slip is at least this many steps of reading, … */
const STEPS = 4
/** … this many times the unevenness of the readings, … */
const TIMES_UNEVEN = 4
/** … and this many times what remains about it once it is allowed for. */
const TIMES_REMAINDER = 4
/** Assuming a wrong reading must leave this many times less (sum of squares) than assuming a displaced station. */
const TIMES_BETTER = 2
/** Stations used on each side; beyond a straight end they are known to read 0, but five must have been read. */
const SIDE = 3
const LEAST_READ = 5
const WINDOW = Array.from({ length: 2 * SIDE + 1 }, (_, n) => n - SIDE)
/** Four figures are fitted to a window: a line's two, a change of slope, and the slip or displacement. */
const LEFT_OVER = WINDOW.length - 4
/**
 * Even noise of standard deviation 1 has these medians in `departuresOf`: the least of the three (simulated), and the
 * first (0.6745·√1.5). Each is wrong for some curves, so the larger estimate counts.
 */
const MEDIAN_OF_LEAST = 0.5
const MEDIAN_OF_BETWEEN = 0.826

/** What one millimetre adds to the readings around a station: to the reading alone, or by moving the station. */
const SLIP = WINDOW.map((x) => (x === 0 ? 1 : 0))
const DISPLACEMENT = WINDOW.map((x) => (x === 0 ? 1 : Math.abs(x) === 1 ? -0.5 : 0))

/**
 * Slips among readings taken half a chord apart. A station that really is out of place by t changes its own ordinate by
 * t and each neighbour's by −t/2; a slip does not change its neighbours. Around every reading that stands out, both are
 * fitted to the seven readings around it, on a line that may change its slope once; a slip is named when it explains
 * them and a displacement does not. A kink (a bad joint) at a station reads like a slip: measuring again tells them
 * apart.
 *
 * In uneven readings small slips cannot be found. Readings within three stations of a missing one or of the end of an
 * unfinished curve are not judged, nor the last one at a straight end.
 *
 * @param readingsMm null where there is none
 * @param beyond whether the track is straight before the first and after the last reading, so that it would read 0 there
 * @param expectedMm what each should be, where that is known: only departures from it are judged then
 */
export function slipsAmong(
  readingsMm: readonly (number | null)[],
  beyond: { readonly straightBefore: boolean; readonly straightAfter: boolean },
  resolutionMm: number,
  expectedMm?: readonly number[],
): Slip[] {
  const at = (n: number): number => {
    if (n < 0) return beyond.straightBefore ? 0 : Number.NaN
    if (n >= readingsMm.length) return beyond.straightAfter ? 0 : Number.NaN
    const reading = readingsMm[n]
    return typeof reading === 'number' ? reading - (expectedMm?.[n] ?? 0) : Number.NaN
  }
  const departures = readingsMm.map((_, n) => departuresOf(at, n))
  const least = departures.map((three) => Math.min(...three.map(Math.abs)))
  const between = departures.map(([by]) => Math.abs(by))
  const uneven = Math.max(
    median(least.filter(Number.isFinite)) / MEDIAN_OF_LEAST,
    median(between.filter(Number.isFinite)) / MEDIAN_OF_BETWEEN,
  )

  const found: (Slip & { by: number })[] = []
  for (let n = 0; n < readingsMm.length; n++) {
    const three = departures[n]!
    const isOut = three.every((by) => by > 0) || three.every((by) => by < 0)
    if (!isOut || least[n]! < STEPS * resolutionMm) continue
    const window = WINDOW.map((x) => at(n + x))
    const read = Math.min(n + SIDE, readingsMm.length - 1) - Math.max(n - SIDE, 0) + 1
    if (read < LEAST_READ || window.some(Number.isNaN)) continue
    const slip = bestFit(SLIP, window)
    const displacement = bestFit(DISPLACEMENT, window)
    const reading = (LEFT_OVER * resolutionMm ** 2) / 4
    const by = Math.abs(slip.size)
    if (
      by >= Math.max(STEPS * resolutionMm, TIMES_UNEVEN * uneven) &&
      by >= TIMES_REMAINDER * Math.sqrt(slip.remainder / LEFT_OVER) &&
      (slip.remainder + reading) * TIMES_BETTER <= displacement.remainder + reading
    )
      found.push({ station: n, expectedMm: readingsMm[n]! - slip.size, by })
  }
  return found
    .filter((one) => found.every((other) => Math.abs(other.station - one.station) >= SIDE || other.by <= one.by))
    .map(({ station, expectedMm }) => ({ station, expectedMm }))
}

/**
 * How far a reading is from the line through its two neighbours, from the line from the left and from the line from the
 * right. At a corner between straight stretches the last two have one 0 between them.
 */
function departuresOf(at: (n: number) => number, n: number): [number, number, number] {
  return [at(n) - (at(n - 1) + at(n + 1)) / 2, at(n) - 2 * at(n - 1) + at(n - 2), at(n) - 2 * at(n + 1) + at(n + 2)]
}

/** Least squares of a line, one change of slope (wherever it fits best) and a multiple of `shape`. */
function bestFit(shape: readonly number[], window: readonly number[]): { size: number; remainder: number } {
  let best = { size: 0, remainder: Number.POSITIVE_INFINITY }
  for (let corner = 1 - SIDE; corner < SIDE; corner++) {
    const bend = WINDOW.map((x) => Math.max(0, x - corner))
    const fit = leastSquares([WINDOW.map(() => 1), WINDOW, bend, shape], window)
    if (fit.remainder < best.remainder) best = { size: fit.last, remainder: fit.remainder }
  }
  return best
}

/** @returns the coefficient of the last shape, and the sum of squares that no combination of the shapes explains */
function leastSquares(shapes: readonly (readonly number[])[], values: readonly number[]) {
  const directions: number[][] = []
  let rest = [...values]
  let last = 0
  for (const shape of shapes) {
    let own = [...shape]
    for (const direction of directions) own = without(own, direction)
    const length = Math.sqrt(product(own, own))
    const direction = own.map((part) => part / length)
    last = product(rest, direction) / length
    rest = without(rest, direction)
    directions.push(direction)
  }
  return { last, remainder: product(rest, rest) }
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}
