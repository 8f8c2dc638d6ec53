/**
 * The string-lining table: what happens to a curve's ordinates when its stations are moved. Stations stand half a chord
 * apart. Moving a station outward by t raises its own ordinate by t and lowers each neighbour's by t/2, so
 *
 *   error(n) = measured(n) − proposed(n)
 *   running sum(n) = error(0) + … + error(n)
 *   half throw(n) = half throw(n − 1) + running sum(n − 1), half throw(0) = 0
 *   throw(n) = 2 × half throw(n), + outward
 *
 * The end keeps its direction when the last running sum is 0, and its place when the last half throw is 0. All in one
 * unit of length. Source: US Army TR 671 *Railway Track Maintenance II* ch. 3;
 * tests/published/tr-671-string-lining.test.ts.
 */
export interface LiningTable {
  readonly runningSums: readonly number[]
  readonly halfThrows: readonly number[]
  /** 0 when the end keeps its direction. */
  readonly lastSum: number
  /** 0 when the end keeps its place. */
  readonly lastHalfThrow: number
}

/** @param proposed one for every measured ordinate; at least one */
export function liningTable(measured: readonly number[], proposed: readonly number[]): LiningTable {
  const runningSums: number[] = []
  const halfThrows: number[] = []
  let sum = 0
  let half = 0
  for (const [n, ordinate] of measured.entries()) {
    half += sum
    sum += ordinate - proposed[n]!
    halfThrows.push(half)
    runningSums.push(sum)
  }
  return { runningSums, halfThrows, lastSum: sum, lastHalfThrow: half }
}
