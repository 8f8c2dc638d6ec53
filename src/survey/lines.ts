import type { LevelLine } from '../plan/rows/survey.ts'
import type { StationAnswer } from './answer.ts'

/** An end of a line, as the adjustment left it. */
interface EndVariances {
  readonly from: number
  readonly to: number
  /** Covariance of the two. */
  readonly both: number
}

/**
 * The stations of a line of n steps with rises h1 … hn, from elevation z0. If it ends at a known or adjusted elevation zn,
 * the misclosure m = Σh − (zn − z0) is spread evenly:
 *
 * zk = z0 + (h1 + … + hk) − m·k/n
 * σk² = (1 − k/n)²·σ0² + (k/n)²·σn² + 2·(1 − k/n)·(k/n)·σ0n + σ²·k·(n − k)/n      with an end
 * σk² = σ0² + k·σ²                                                             without one
 *
 * σ the error of a step. Exact: the line as a whole took part in the adjustment, and what its steps add between its ends is
 * independent of that. Source: error propagation; checked in tests/survey/parts.test.ts against an adjustment with every
 * station as an unknown, and by Monte Carlo.
 *
 * @param variances null for pegs with given elevations
 */
export function stationsOf(
  readings: LevelLine['readings'],
  fromMm: number,
  toMm: number | null,
  variances: EndVariances,
  stepErrorMm: number,
): StationAnswer[] {
  const n = readings.length
  const riseMm = readings.reduce((sum, { rise }) => sum + rise, 0)
  const misclosureMm = toMm === null ? 0 : riseMm - (toMm - fromMm)
  const stations: StationAnswer[] = [{ index: 0, atMm: 0, elevationMm: fromMm, errorMm: Math.sqrt(variances.from) }]
  let atMm = 0
  let risenMm = 0
  for (const [index, { length, rise }] of readings.entries()) {
    const k = index + 1
    atMm += length
    risenMm += rise
    stations.push({
      index: k,
      atMm,
      elevationMm: fromMm + risenMm - (misclosureMm * k) / n,
      errorMm: Math.sqrt(
        toMm === null
          ? variances.from + k * stepErrorMm ** 2
          : between(k / n, variances, (stepErrorMm ** 2 * k * (n - k)) / n),
      ),
    })
  }
  return stations
}

function between(share: number, { from, to, both }: EndVariances, ofSteps: number): number {
  return (1 - share) ** 2 * from + share ** 2 * to + 2 * (1 - share) * share * both + ofSteps
}
