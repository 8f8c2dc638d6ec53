import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { DualSimplex } from '../../measure/dual-simplex.ts'
import type { Candidates } from './candidates.ts'
import type { Work } from './problem.ts'

/** What remains to be made into chains: runs of each kind, sticks of each length, and the allowed waste. */
export interface Remainder {
  readonly runs: readonly number[]
  readonly sticks: readonly number[]
  readonly wasteMm: number
}

/** How far a candidate may miss the bound. */
export const TOLERANCE = 1e-9
/** Keeps the unknown for waste near 1. */
const SCALE_MM = 100
/** A programme that is not solved after this many exchanges per unknown is given up. */
const EXCHANGES_PER_UNKNOWN = 80
/** Chains that waste everything that may be wasted count this much less than chains without waste. */
const LOST_BY_WASTE = 0.01
/** How many candidates that miss the bound are added at a time. */
const TAKEN_A_ROUND = 40
/** Steps to set up a programme, in addition to the square of its unknowns. */
const STEPS_TO_BEGIN = 600
/** Waste is given a price even where nothing may be wasted. */
const LEAST_WASTE_MM = 1e-3

/**
 * The most chains, including fractions of chains, that can be picked from candidates: no run, no stick and no
 * millimetre of waste is used more often than it exists. Solved as its dual: the lowest bound (see `ChainCut`)
 * that every candidate meets. Candidates that miss it are added one after another.
 */
export class ChainProgramme {
  readonly shares: Float64Array
  perMm = 0
  readonly perStick: Float64Array
  private readonly candidates: Candidates
  private readonly simplex: DualSimplex
  private readonly weights: Float64Array
  /** The unknown for the share of each kind; −1 where no run of it is left. */
  private readonly place: Int32Array
  private readonly waste: number
  /** The unknown of the limit on chains; −1 where there is none. */
  private readonly enough: number
  /** How much less a chain counts per millimetre of its waste. */
  private readonly lostPerMm: number = 0
  private readonly spareBefore: number
  private readonly row: Float64Array
  /** Candidates that are checked each time; the others only when these meet the bound. */
  private readonly pool: number[]
  private exchanges = 0

  /**
   * @param wanted at most this many chains are picked, with the least waste; as many as possible
   *   when left out
   * @param likely candidates that are likely to matter
   */
  constructor(
    candidates: Candidates,
    { runs, sticks, wasteMm }: Remainder,
    wanted?: number,
    likely: readonly number[] = [],
  ) {
    this.candidates = candidates
    this.pool = [...likely]
    let places = 0
    this.place = Int32Array.from(runs, (count) => (count > 0 ? places++ : -1))
    this.waste = places
    this.enough = wanted === undefined ? -1 : places + 1 + sticks.length
    const size = places + 1 + sticks.length + (wanted === undefined ? 0 : 1)
    this.weights = new Float64Array(size)
    for (const [kind, count] of runs.entries()) if (count > 0) this.weights[this.place[kind]!] = count
    const slackMm = (wanted ?? 0) * LENGTH_SLACK_MM
    this.weights[places] = Math.max(wasteMm + slackMm, LEAST_WASTE_MM) / SCALE_MM
    for (const [t, count] of sticks.entries()) this.weights[places + 1 + t] = count
    if (wanted !== undefined) {
      this.weights[this.enough] = wanted
      this.lostPerMm = LOST_BY_WASTE / Math.max(wasteMm, 1)
    }
    this.spareBefore = (wanted ?? 0) - this.lostPerMm * Math.max(wasteMm, 0)
    this.simplex = new DualSimplex(new Float64Array(size), this.weights)
    this.row = new Float64Array(size)
    this.shares = new Float64Array(runs.length)
    this.perStick = new Float64Array(sticks.length)
  }

  /**
   * Adds candidates until all of them meet the bound; to be called again when there are more of them.
   *
   * @returns false where the work runs out or rounding errors are too large
   */
  solve(among: ArrayLike<number>, work: Work): boolean {
    const { simplex, row, pool } = this
    const { z } = simplex
    const size = z.length
    work.left -= STEPS_TO_BEGIN + size * size
    for (;;) {
      const negative = z.findIndex((value) => value < -TOLERANCE)
      let by = -(z[negative] ?? 0)
      let most = -1
      if (negative < 0) {
        by = TOLERANCE
        work.left -= pool.length
        for (const candidate of pool) {
          const missing = -this.excessOf(candidate)
          if (missing <= by) continue
          by = missing
          most = candidate
        }
        if (most < 0) {
          work.left -= among.length
          if (!this.addWorst(among)) break
          continue
        }
      }
      work.left -= (size * size) >> 2
      if (work.left <= 0 || ++this.exchanges > EXCHANGES_PER_UNKNOWN * size) return false
      row.fill(0)
      if (negative >= 0) row[negative] = 1
      else this.fill(most)
      if (!simplex.exchange(row, by, most)) return false
    }
    for (let kind = 0; kind < this.place.length; kind++)
      this.shares[kind] = this.place[kind]! < 0 ? 0 : Math.max(0, z[this.place[kind]!]!)
    this.perMm = Math.max(0, z[this.waste]!) / SCALE_MM
    for (let t = 0; t < this.perStick.length; t++) this.perStick[t] = Math.max(0, z[this.waste + 1 + t]!)
    return true
  }

  /** Adds those that miss the bound most among the candidates that are checked each time. */
  private addWorst(among: ArrayLike<number>): boolean {
    const missing: { candidate: number; excess: number }[] = []
    for (let n = 0; n < among.length; n++) {
      const excess = this.excessOf(among[n]!)
      if (excess < -TOLERANCE) missing.push({ candidate: among[n]!, excess })
    }
    missing.sort((a, b) => a.excess - b.excess)
    for (const { candidate } of missing.slice(0, TAKEN_A_ROUND)) this.pool.push(candidate)
    return missing.length > 0
  }

  /** The most chains possible. */
  get value(): number {
    let sum = 0
    for (let n = 0; n < this.weights.length; n++) sum += this.weights[n]! * Math.max(0, this.simplex.z[n]!)
    return sum
  }

  /** How much of the bound the wanted chains leave for what they exceed 1 by. */
  get spare(): number {
    return this.value - this.spareBefore
  }

  /** By how much a candidate exceeds 1. */
  excessOf(candidate: number): number {
    const { z } = this.simplex
    const { place, waste } = this
    const kinds = this.candidates.kinds[candidate]!
    const sticks = this.candidates.sticks[candidate]!
    const wasteMm = this.candidates.wasteMm[candidate]!
    let sum = wasteMm * (z[waste]! / SCALE_MM + this.lostPerMm) - 1
    if (this.enough >= 0) sum += z[this.enough]!
    for (let n = 0; n < kinds.length; n++) sum += z[place[kinds[n]!]!]!
    for (let t = 0; t < sticks.length; t++) sum += sticks[t]! * z[waste + 1 + t]!
    return sum
  }

  /** How much of each candidate is used, where any is. */
  taken(): Map<number, number> {
    const { active, prices } = this.simplex
    const taken = new Map<number, number>()
    for (let n = 0; n < active.length; n++)
      if (active[n]! >= 0 && prices[n]! > LEAST_TAKEN) taken.set(active[n]!, (taken.get(active[n]!) ?? 0) + prices[n]!)
    return taken
  }

  private fill(candidate: number): void {
    const { row, place, waste, candidates } = this
    for (const kind of candidates.kinds[candidate]!) row[place[kind]!]!++
    row[waste] = candidates.wasteMm[candidate]! / SCALE_MM
    if (this.enough >= 0) row[this.enough] = 1
    for (const [t, count] of candidates.sticks[candidate]!.entries()) row[waste + 1 + t] = count
  }
}

/** Smaller values are rounding errors. */
const LEAST_TAKEN = 1e-7
