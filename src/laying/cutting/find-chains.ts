import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { ChainBound } from './chain-bound.ts'
import { arrangeChain } from './lay-chain.ts'
import { sticksMm } from './lay-chains.ts'
import type { Chain, CutProblem, Work } from './problem.ts'
import type { WasteCut } from './waste-cut.ts'

/** Chains were found, or there are none, or the work was not enough to tell. */
export type ChainsFound = { readonly chains: Chain[] } | 'none' | 'gave-up'

/** A set of sticks of which a chain may be laid. */
interface StickSet {
  readonly lengthMm: number
  readonly counts: readonly number[]
  readonly shortestMm: number
}

/** With more ways to take some of the sticks only some of them are tried. */
const MOST_STICK_SETS = 6000
/** How far a pass may stray from the way that looks best, over all the runs together, before none is left out. */
const PASSES = [0, 1, 2, 3, 4, 6, 8, 12, 20, Number.POSITIVE_INFINITY] as const
/** Ways that are looked at for one run before the best of them are tried. */
const MOST_WAYS = 3000
const ENOUGH_WAYS = 40
const UNITS_WATCHED = 6
/** So many chains, or chains of so few runs, are left to be looked for one by one, with so much work at most. */
const CHAINS_AT_LAST = 3
const RUNS_AT_LAST = 9
const WORK_AT_LAST = 8_000
/** Problems of fewer runs are looked through from one end. */
const FEW_RUNS = 14
const MOST_SMALL_CHAINS = 1500

/** Numbers in [0, 1), the same series for the same seed (linear congruential, Numerical Recipes). */
function seriesFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

/**
 * Divides runs and sticks into so many chains, all the sticks being used. A search in depth: the run that is hardest to
 * place gets its chain first, the chain that wastes least is tried first. What may be wasted in all is known beforehand
 * (Σ sticks − Σ runs − kerfs), and so is by how much the chain bound may be missed; both prune.
 *
 * @param counts how many sticks of each length
 * @param chainCount chains wanted, ≥ 1
 */
export function findChains(
  problem: CutProblem,
  bound: ChainBound,
  counts: readonly number[],
  chainCount: number,
  work: Work,
): ChainsFound {
  if (bound.most(counts) < chainCount) return 'none'
  const search = new ChainSearch(problem, bound, counts, chainCount)
  if (problem.runs.length > FEW_RUNS && chainCount > CHAINS_AT_LAST) {
    const slice = { left: work.left / 2 }
    const before = slice.left
    const chains = search.fromTheBest(slice)
    work.left -= before - slice.left
    if (chains) return { chains }
  }
  for (const widest of PASSES) {
    const found = search.pass(widest, work)
    if (found !== 'gave-up' || work.left <= 0) return found
  }
  return 'gave-up'
}

/** As many chains as are found in a hurry, all the sticks being used; null where there are none. */
export function manyChains(
  problem: CutProblem,
  bound: ChainBound,
  counts: readonly number[],
  work: Work,
): Chain[] | null {
  const most = bound.most(counts)
  return most < 1 ? null : new ChainSearch(problem, bound, counts, most).fromTheBest(work, true)
}

class ChainSearch {
  private readonly problem: CutProblem
  private readonly bound: ChainBound
  private readonly counts: readonly number[]
  private readonly chainCount: number
  private readonly units: readonly number[]
  private readonly sets: readonly StickSet[]
  private readonly allSets: boolean
  private readonly order: readonly number[]
  private readonly wasteMm: number
  private readonly cut: WasteCut
  private readonly laid = new Map<string, boolean>()
  private readonly dead = new Set<string>()
  private work: Work = { left: 0 }
  private widest = 0
  private strayed = 0
  /** Everything that was left out was proven useless. */
  private whole = true

  constructor(problem: CutProblem, bound: ChainBound, counts: readonly number[], chainCount: number) {
    this.problem = problem
    this.bound = bound
    this.counts = counts
    this.chainCount = chainCount
    this.units = bound.tightest(counts, UNITS_WATCHED)
    const { sets, all } = stickSets(problem, counts)
    this.sets = sets
    this.allSets = all
    const { runs } = problem
    const hardest = bound.fractions[this.units[0]!]!
    this.wasteMm = bound.wasteMm(counts, chainCount)
    this.cut = bound.tightestCut(counts, chainCount) ?? NO_CUT(runs.length)
    const { shares } = this.cut
    this.order = runs
      .map((_, run) => run)
      .sort(
        (a, b) =>
          shares[b]! - shares[a]! || hardest[b]! - hardest[a]! || runs[b]!.lengthMm - runs[a]!.lengthMm || a - b,
      )
  }

  pass(widest: number, work: Work): ChainsFound {
    if (this.wasteMm < -LENGTH_SLACK_MM) return 'none'
    this.work = work
    this.widest = widest
    this.whole = this.allSets
    this.strayed = 0
    const spare = this.units.map((unit) => this.bound.room(unit, this.counts) - this.chainCount)
    const { cut, chainCount } = this
    const slack = cut.shareSum + cut.perMm * this.wasteMm - chainCount + FRACTION_SLACK
    const chains = this.divide(this.order, this.counts, chainCount, this.wasteMm, spare, slack)
    if (chains) return { chains }
    return this.whole ? 'none' : 'gave-up'
  }

  /**
   * Takes the pairs and threes that waste least, wherever they are, and divides what is left by trying every chain; again
   * and again, the order a little different each time (by a fixed series of numbers). Finds chains in large problems, and
   * cannot tell that there are none.
   *
   * @param fewer where so many chains are not found, the most that were: what was left over being laid as one
   */
  fromTheBest(work: Work, fewer = false): Chain[] | null {
    let most: Chain[] | null = null
    this.work = work
    const small = this.smallChains()
    const { cut, chainCount } = this
    const random = seriesFrom(chainCount)
    const fairMm = this.wasteMm / chainCount
    const slackInAll = cut.shareSum + cut.perMm * this.wasteMm - chainCount + FRACTION_SLACK
    while (work.left > 0) {
      const pairs = random()
      const key = small.map(
        ({ runs, wasteMm }) => (wasteMm + fairMm) * (runs.length > 2 ? 1 : pairs) * (0.3 + random()),
      )
      const order = small.map((_, n) => n).sort((a, b) => key[a]! - key[b]!)
      const taken = new Set<number>()
      const chains: Chain[] = []
      let counts = this.counts
      let wasteMm = this.wasteMm
      let slack = slackInAll
      let spare: readonly number[] = this.units.map((unit) => this.bound.room(unit, counts) - chainCount)
      work.left -= 4 * small.length
      for (const n of order) {
        const enough = chains.length >= chainCount - CHAINS_AT_LAST || this.order.length - taken.size <= RUNS_AT_LAST
        if (fewer ? chains.length >= chainCount - 1 : enough) break
        const way = small[n]!
        if (taken.size + way.runs.length >= this.order.length) continue
        if (way.runs.some((run) => taken.has(run))) continue
        if (way.wasteMm > wasteMm || way.excess > slack) continue
        if (way.sticks.some((count, t) => count > counts[t]!) || way.losses.some((loss, u) => loss > spare[u]!))
          continue
        if (!this.layable(way.runs, way.sticks)) continue
        for (const run of way.runs) taken.add(run)
        chains.push({ runs: way.runs, sticks: way.sticks })
        counts = counts.map((count, t) => count - way.sticks[t]!)
        wasteMm -= way.wasteMm
        slack -= way.excess
        spare = spare.map((room, u) => room - way.losses[u]!)
      }
      const left = this.order.filter((run) => !taken.has(run))
      if (fewer) {
        work.left -= 10 * this.order.length
        if (chains.length >= (most?.length ?? 0) && this.layable(left, counts))
          most = [...chains, { runs: left, sticks: counts }]
        continue
      }
      this.work = { left: Math.min(work.left, WORK_AT_LAST) }
      const before = this.work.left
      this.widest = Number.POSITIVE_INFINITY
      const rest = this.divide(left, counts, chainCount - chains.length, wasteMm, spare, slack)
      work.left -= Math.max(1, before - this.work.left)
      if (rest) return [...chains, ...rest]
    }
    return most
  }

  /** Single runs, pairs and threes with the sticks that waste least on them. */
  private smallChains(): Way[] {
    const { order, counts, wasteMm, units, chainCount } = this
    const spare = units.map((unit) => this.bound.room(unit, counts) - chainCount)
    const slack = this.cut.shareSum + this.cut.perMm * this.wasteMm - chainCount + FRACTION_SLACK
    const fairMm = (3 * wasteMm) / chainCount
    const all = order.flatMap((_, n) => this.ways(order.slice(n), counts, 1, fairMm, spare, slack, 3))
    return all.sort((a, b) => a.runs.length - b.runs.length || a.wasteMm - b.wasteMm).slice(0, MOST_SMALL_CHAINS)
  }

  private divide(
    left: readonly number[],
    counts: readonly number[],
    wanted: number,
    wasteMm: number,
    spare: readonly number[],
    slack: number,
  ): Chain[] | null {
    if (wanted === 1) return this.layable(left, counts) ? [{ runs: left, sticks: counts }] : null
    const key = `${left.join()}|${counts.join()}`
    if (this.dead.has(key)) return null
    const wholeBefore = this.whole
    this.whole = this.allSets
    const ways = this.ways(left, counts, wanted, wasteMm, spare, slack)
    ways.sort((a, b) => a.excess - b.excess || a.wasteMm - b.wasteMm || a.runs.length - b.runs.length)
    const strayed = this.strayed
    for (const [n, way] of ways.entries()) {
      if (strayed + n > this.widest) {
        this.whole = false
        break
      }
      this.strayed = strayed + n
      if (this.work.left <= 0) {
        this.whole = false
        break
      }
      if (!this.layable(way.runs, way.sticks)) continue
      const taken = new Set(way.runs)
      const rest = this.divide(
        left.filter((run) => !taken.has(run)),
        counts.map((count, t) => count - way.sticks[t]!),
        wanted - 1,
        wasteMm - way.wasteMm,
        spare.map((room, n) => room - way.losses[n]!),
        slack - way.excess,
      )
      if (rest) return [{ runs: way.runs, sticks: way.sticks }, ...rest]
    }
    this.strayed = strayed
    if (this.whole) this.dead.add(key)
    this.whole &&= wholeBefore
    return null
  }

  /** Every chain the first of the runs left can be laid in. */
  private ways(
    left: readonly number[],
    counts: readonly number[],
    wanted: number,
    wasteMm: number,
    spare: readonly number[],
    slack: number,
    mostSize = Number.POSITIVE_INFINITY,
  ): Way[] {
    const { runs, kerfMm } = this.problem
    const { sets, units } = this
    const { fractions, wholes, perStick } = this.bound
    const found: Way[] = []
    const { shares, perMm } = this.cut
    const shared = new Float64Array(left.length + 1)
    const sticksLeft = counts.reduce((sum, count) => sum + count, 0)
    const taken: number[] = []
    const filled = units.map(() => new Float64Array(left.length + 1))
    const counted = units.map(() => new Float64Array(left.length + 1))
    const mostRuns = Math.min(mostSize, left.length - (wanted - 1))
    let size = 1
    let larger = false

    const take = (n: number, lengthMm: number) => {
      if (this.work.left <= 0 || found.length >= MOST_WAYS) {
        this.whole = false
        return
      }
      this.work.left--
      const run = left[n]!
      const depth = taken.length
      if (depth >= size) {
        larger = true
        return
      }
      for (let u = 0; u < units.length; u++) {
        const sum = filled[u]![depth]! + fractions[units[u]!]![run]!
        if (sum > spare[u]! + 1 + FRACTION_SLACK) return
        filled[u]![depth + 1] = sum
        counted[u]![depth + 1] = counted[u]![depth]! + wholes[units[u]!]![run]!
      }
      shared[depth + 1] = shared[depth]! + shares[run]!
      if (shared[depth + 1]! > 1 + slack) return
      taken.push(run)
      const length = lengthMm + runs[run]!.lengthMm + (depth > 0 ? kerfMm : 0)
      // Smaller chains have been looked at already.
      for (
        let s =
          taken.length < size
            ? sets.length
            : firstIndexWhere(sets.length, (index) => sets[index]!.lengthMm >= length - LENGTH_SLACK_MM);
        s < sets.length && sets[s]!.lengthMm <= length + wasteMm + LENGTH_SLACK_MM;
        s++
      ) {
        this.work.left--
        const set = sets[s]!
        const excess = shared[depth + 1]! + perMm * Math.max(0, set.lengthMm - length) - 1
        if (excess > slack) break
        // A stick that could be left out belongs to another division.
        if (set.lengthMm - set.shortestMm >= length - LENGTH_SLACK_MM) continue
        let used = 0
        let fits = true
        for (let t = 0; t < counts.length; t++) {
          used += set.counts[t]!
          if (set.counts[t]! > counts[t]!) fits = false
        }
        if (!fits || sticksLeft - used < wanted - 1) continue
        const losses = units.map((unit, u) => {
          let sum = -counted[u]![depth + 1]! - 1
          for (let t = 0; t < counts.length; t++) sum += set.counts[t]! * perStick[unit]![t]!
          return sum
        })
        if (losses.some((loss, u) => loss > spare[u]!)) continue
        found.push({
          runs: [...taken],
          sticks: set.counts,
          wasteMm: set.lengthMm - length,
          losses,
          excess: Math.max(0, excess),
        })
      }
      if (taken.length < mostRuns) for (let next = n + 1; next < left.length; next++) take(next, length)
      taken.pop()
    }
    for (size = 1; size <= mostRuns; size++) {
      larger = false
      take(0, 0)
      if (!larger) break
      if (mostSize > 3 && found.length >= ENOUGH_WAYS && this.widest !== Number.POSITIVE_INFINITY) {
        this.whole = false
        break
      }
    }
    return found
  }

  /** Whether the pieces can be made long enough. */
  private layable(runs: readonly number[], sticks: readonly number[]): boolean {
    const key = `${runs.join()}|${sticks.join()}`
    let known = this.laid.get(key)
    if (known === undefined) {
      const { problem } = this
      const { kerfMm, minimumPieceMm, lengths } = problem
      const rules = { kerfMm, shortestMm: minimumPieceMm, work: this.work }
      known = arrangeChain(problem.runs, runs, sticksMm(lengths, sticks), rules) !== null
      this.laid.set(key, known)
    }
    // Not every way to lay a chain is tried.
    if (!known) this.whole = false
    return known
  }
}

/** A chain for the first run left; how much it takes of what may be wasted, and of what the bounds leave. */
interface Way extends Chain {
  readonly wasteMm: number
  readonly losses: readonly number[]
  readonly excess: number
}

/** Without a bound by waste nothing is pruned by one. */
const NO_CUT = (count: number): WasteCut => ({ shares: new Float64Array(count), shareSum: count, perMm: 0 })

const FRACTION_SLACK = 1e-6

/** Every way to take some of the sticks, by length. */
function stickSets({ lengths }: CutProblem, counts: readonly number[]): { sets: StickSet[]; all: boolean } {
  let sets: StickSet[] = [{ lengthMm: 0, counts: counts.map(() => 0), shortestMm: Number.POSITIVE_INFINITY }]
  let all = true
  counts.forEach((count, t) => {
    if (count === 0) return
    const { lengthMm } = lengths[t]!
    const most = Math.min(count, Math.max(1, Math.floor(MOST_STICK_SETS / sets.length) - 1))
    if (most < count) all = false
    sets = sets.flatMap((set) =>
      Array.from({ length: most + 1 }, (_, n) =>
        n === 0
          ? set
          : {
              lengthMm: set.lengthMm + n * lengthMm,
              counts: set.counts.map((had, at) => (at === t ? n : had)),
              shortestMm: Math.min(set.shortestMm, lengthMm),
            },
      ),
    )
  })
  return { sets: sets.slice(1).sort((a, b) => a.lengthMm - b.lengthMm), all }
}
