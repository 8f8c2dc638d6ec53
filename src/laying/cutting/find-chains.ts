import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { ChainBound } from './chain-bound.ts'
import { arrangeChain } from './lay-chain.ts'
import type { Chain, CutProblem, Work } from './problem.ts'

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
/** Of the ways to lay one run's chain that are tried before all of them are, pass by pass. */
const PASSES = [1, 2, 4, 12, Number.POSITIVE_INFINITY] as const
/** Ways that are looked at for one run before the best of them are tried. */
const MOST_WAYS = 3000
const UNITS_WATCHED = 6

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
  for (const widest of PASSES) {
    const found = search.pass(widest, work)
    if (found !== 'gave-up' || work.left <= 0) return found
  }
  return 'gave-up'
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
  private readonly laid = new Map<string, boolean>()
  private readonly dead = new Set<string>()
  private work: Work = { left: 0 }
  private widest = 1
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
    const { runs, kerfMm, lengths } = problem
    const hardest = bound.fractions[this.units[0]!]!
    this.order = runs
      .map((_, run) => run)
      .sort((a, b) => hardest[b]! - hardest[a]! || runs[b]!.lengthMm - runs[a]!.lengthMm || a - b)
    this.wasteMm =
      counts.reduce((sum, count, t) => sum + count * lengths[t]!.lengthMm, 0) -
      runs.reduce((sum, { lengthMm }) => sum + lengthMm, 0) -
      kerfMm * (runs.length - chainCount)
  }

  pass(widest: number, work: Work): ChainsFound {
    if (this.wasteMm < -LENGTH_SLACK_MM) return 'none'
    this.work = work
    this.widest = widest
    this.whole = this.allSets
    const spare = this.units.map((unit) => this.bound.room(unit, this.counts) - this.chainCount)
    const chains = this.divide(this.order, this.counts, this.chainCount, this.wasteMm, spare)
    if (chains) return { chains }
    return this.whole ? 'none' : 'gave-up'
  }

  private divide(
    left: readonly number[],
    counts: readonly number[],
    wanted: number,
    wasteMm: number,
    spare: readonly number[],
  ): Chain[] | null {
    if (wanted === 1) return this.layable(left, counts) ? [{ runs: left, sticks: counts }] : null
    const key = `${left.join()}|${counts.join()}`
    if (this.dead.has(key)) return null
    const wholeBefore = this.whole
    this.whole = this.allSets
    const ways = this.ways(left, counts, wanted, wasteMm, spare)
    ways.sort((a, b) => a.wasteMm - b.wasteMm || a.runs.length - b.runs.length)
    if (ways.length > this.widest) {
      ways.length = this.widest
      this.whole = false
    }
    for (const way of ways) {
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
      )
      if (rest) return [{ runs: way.runs, sticks: way.sticks }, ...rest]
    }
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
  ): (Chain & { wasteMm: number; losses: number[] })[] {
    const { runs, kerfMm } = this.problem
    const { sets, units } = this
    const { fractions, wholes, perStick } = this.bound
    const found: (Chain & { wasteMm: number; losses: number[] })[] = []
    const sticksLeft = counts.reduce((sum, count) => sum + count, 0)
    const taken: number[] = []
    const filled = units.map(() => new Float64Array(left.length + 1))
    const counted = units.map(() => new Float64Array(left.length + 1))
    const mostRuns = left.length - (wanted - 1)

    const take = (n: number, lengthMm: number) => {
      if (this.work.left <= 0 || found.length >= MOST_WAYS) {
        this.whole = false
        return
      }
      this.work.left--
      const run = left[n]!
      const depth = taken.length
      for (let u = 0; u < units.length; u++) {
        const sum = filled[u]![depth]! + fractions[units[u]!]![run]!
        if (sum > spare[u]! + 1 + FRACTION_SLACK) return
        filled[u]![depth + 1] = sum
        counted[u]![depth + 1] = counted[u]![depth]! + wholes[units[u]!]![run]!
      }
      taken.push(run)
      const length = lengthMm + runs[run]!.lengthMm + (depth > 0 ? kerfMm : 0)
      for (
        let s = firstIndexWhere(sets.length, (index) => sets[index]!.lengthMm >= length - LENGTH_SLACK_MM);
        s < sets.length && sets[s]!.lengthMm <= length + wasteMm + LENGTH_SLACK_MM;
        s++
      ) {
        this.work.left--
        const set = sets[s]!
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
        found.push({ runs: [...taken], sticks: set.counts, wasteMm: set.lengthMm - length, losses })
      }
      if (taken.length < mostRuns) for (let next = n + 1; next < left.length; next++) take(next, length)
      taken.pop()
    }
    take(0, 0)
    return found
  }

  /** Whether the pieces can be made long enough. */
  private layable(runs: readonly number[], sticks: readonly number[]): boolean {
    const key = `${runs.join()}|${sticks.join()}`
    let known = this.laid.get(key)
    if (known === undefined) {
      const { problem } = this
      known = arrangeChain(problem.runs, runs, sticksMm(problem, sticks), problem.kerfMm, problem.minimumPieceMm) !== null
      this.laid.set(key, known)
    }
    // Not every way to lay a chain is tried.
    if (!known) this.whole = false
    return known
  }
}

const FRACTION_SLACK = 1e-9

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

export function sticksMm({ lengths }: Pick<CutProblem, 'lengths'>, counts: readonly number[]): number[] {
  return counts.flatMap((count, t) => new Array<number>(count).fill(lengths[t]!.lengthMm))
}
