import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { DualSimplex } from '../../measure/dual-simplex.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { CutProblem, Work } from './problem.ts'

/**
 * A bound on chains by what they waste: each run i has a share sᵢ, each millimetre of waste m, such that every chain that
 * can be laid at all has Σ sᵢ + m·waste ≥ 1. So chains ≤ Σ sᵢ over all runs + m·(all that is wasted).
 */
export interface WasteCut {
  readonly shares: Float64Array
  readonly shareSum: number
  readonly perMm: number
}

/** Lengths that sticks can make up together are gone through one by one up to this many. */
const MOST_LENGTHS = 8000
const TOLERANCE = 1e-9
const TAKEN_A_ROUND = 24
const POOL_PER_RUN = 30

/** Runs that may be laid as one chain, and what that wastes at least. */
interface Row {
  readonly runs: readonly number[]
  readonly wasteMm: number
}

/** Every length that sticks can make up, in order, as far as it is of use; null when there are too many. */
export function lengthsMadeUp({ runs, lengths, kerfMm }: CutProblem): Float64Array | null {
  const mostMm = runs.reduce((sum, { lengthMm }) => sum + lengthMm + kerfMm, 0)
  let sums = [0]
  for (const { lengthMm, limit } of lengths) {
    const next: number[] = []
    for (const sum of sums)
      for (let n = 0; n <= limit; n++) {
        const made = sum + n * lengthMm
        next.push(made)
        if (made >= mostMm || next.length > MOST_LENGTHS) break
      }
    if (next.length > MOST_LENGTHS) return null
    sums = next
  }
  return Float64Array.from(sums).sort()
}

/**
 * The best such bound where so much is wasted, by linear programming over the chains; chains that break the bound are
 * looked for and taken in until there are none.
 *
 * @param lengthsMm every length that sticks can make up, in order
 * @param wasteMm all that is wasted, ≥ 0
 * @returns null when the work is not enough
 */
export function wasteCut(problem: CutProblem, lengthsMm: Float64Array, wasteMm: number, work: Work): WasteCut | null {
  const count = problem.runs.length
  const weights = new Float64Array(count + 1).fill(1)
  weights[count] = Math.max(wasteMm, 1e-3) / SCALE_MM
  const programme = new DualSimplex(new Float64Array(count + 1), weights)
  const pool = firstChains(problem, lengthsMm)
  const seen = new Set(pool.map(({ runs }) => runs.join()))
  const row = new Float64Array(count + 1)
  const share = new Float64Array(count)
  let exchanges = 0
  for (;;) {
    for (;;) {
      for (let run = 0; run < count; run++) share[run] = Math.max(0, programme.z[run]!)
      const negative = programme.z.findIndex((value) => value < -TOLERANCE)
      if (negative >= 0) {
        row.fill(0)
        row[negative] = 1
        work.left -= count
        if (work.left <= 0 || !programme.exchange(row, -programme.z[negative]!, -1)) return null
        continue
      }
      const missed = mostMissed(pool, share, programme.z[count]! / SCALE_MM)
      if (!missed) break
      work.left -= pool.length >> 2
      if (work.left <= 0 || ++exchanges > 80 * (count + 1)) return null
      row.fill(0)
      for (const run of pool[missed.index]!.runs) row[run] = 1
      row[count] = pool[missed.index]!.wasteMm / SCALE_MM
      if (!programme.exchange(row, missed.by, missed.index)) return null
    }
    const perMm = programme.z[count]! / SCALE_MM
    const found = chainsUnder(problem, lengthsMm, share, perMm, work)
    if (!found) return null
    const fresh = found.filter(({ runs }) => !seen.has(runs.join()))
    if (fresh.length === 0) {
      return { shares: share, shareSum: share.reduce((sum, part) => sum + part, 0), perMm }
    }
    for (const { runs } of fresh) seen.add(runs.join())
    pool.push(...fresh)
  }
}

/** The unknown of a millimetre's waste is kept near 1. */
const SCALE_MM = 100

function mostMissed(pool: readonly Row[], share: Float64Array, perMm: number): { index: number; by: number } | null {
  let by = TOLERANCE
  let most = -1
  for (let index = 0; index < pool.length; index++) {
    const { runs, wasteMm } = pool[index]!
    let missing = 1 - wasteMm * perMm
    for (let n = 0; n < runs.length; n++) missing -= share[runs[n]!]!
    if (missing > by) {
      by = missing
      most = index
    }
  }
  return most < 0 ? null : { index: most, by }
}

function wasteOf(lengthsMm: Float64Array, neededMm: number): number {
  const at = firstIndexWhere(lengthsMm.length, (index) => lengthsMm[index]! >= neededMm - LENGTH_SLACK_MM)
  return at < lengthsMm.length ? Math.max(0, lengthsMm[at]! - neededMm) : Number.POSITIVE_INFINITY
}

/** Chains to begin with: single runs, and of each run the pairs and threes that waste least. */
function firstChains({ runs, kerfMm }: CutProblem, lengthsMm: Float64Array): Row[] {
  const rows: Row[] = []
  const size = runs.map(({ lengthMm }) => lengthMm + kerfMm)
  const add = (to: Row[], places: readonly number[]) => {
    const wasteMm = wasteOf(
      lengthsMm,
      places.reduce((sum, n) => sum + size[n]!, -kerfMm),
    )
    if (Number.isFinite(wasteMm)) to.push({ runs: places, wasteMm })
  }
  for (let a = 0; a < runs.length; a++) {
    add(rows, [a])
    const others: Row[] = []
    for (let b = a + 1; b < runs.length; b++) {
      add(others, [a, b])
      for (let c = b + 1; c < runs.length && runs.length <= MOST_IN_THREES; c++) add(others, [a, b, c])
    }
    others.sort((x, y) => x.wasteMm - y.wasteMm)
    rows.push(...others.slice(0, POOL_PER_RUN))
  }
  return rows
}

/** Of more runs not every three is looked at. */
const MOST_IN_THREES = 48
/** As many chains under the bound are enough for one round. */
const MOST_FOUND = 4000

/** Chains that come to less than 1, the worst of them; none: the bound holds. Null when there is more work than allowed. */
function chainsUnder(
  { runs, kerfMm }: CutProblem,
  lengthsMm: Float64Array,
  share: Float64Array,
  perMm: number,
  work: Work,
): Row[] | null {
  const order = runs.map((_, run) => run).sort((a, b) => share[a]! - share[b]! || a - b)
  const found: (Row & { sum: number })[] = []
  const taken: number[] = []
  let whole = true
  const take = (from: number, shared: number, lengthMm: number) => {
    for (let n = from; n < order.length; n++) {
      const run = order[n]!
      const sum = shared + share[run]!
      if (sum >= 1 - TOLERANCE) return
      if (work.left-- <= 0 || found.length > MOST_FOUND) {
        whole = false
        return
      }
      const length = lengthMm + runs[run]!.lengthMm + kerfMm
      const wasteMm = wasteOf(lengthsMm, length - kerfMm)
      if (wasteMm === Number.POSITIVE_INFINITY) continue
      taken.push(run)
      if (sum + perMm * wasteMm < 1 - 2 * TOLERANCE)
        found.push({ runs: [...taken].sort((a, b) => a - b), wasteMm, sum: sum + perMm * wasteMm })
      take(n + 1, sum, length)
      taken.pop()
    }
  }
  take(0, 0, 0)
  if (!whole && found.length === 0) return null
  return found.sort((a, b) => a.sum - b.sum).slice(0, TAKEN_A_ROUND)
}
