import { exceeds } from '../../measure/counting.ts'
import { sum } from '../../measure/sum.ts'
import { type Layable, layable } from './arrange-chain.ts'
import { Candidates } from './candidates.ts'
import type { ChainBound } from './chain-bound.ts'
import { type ChainCut, CUT_SLACK, spareIn } from './chain-cut.ts'
import type { Remainder } from './chain-programme.ts'
import { addFirst, findCut } from './find-cut.ts'
import { sticksMm } from './lay-chains.ts'
import { manyChains } from './many-chains.ts'
import { ChainPacking, type ChainsFound, candidatesFor } from './pack-chains.ts'
import type { Chain, CutProblem, Work } from './problem.ts'
import { ProblemNeeds } from './problem-needs.ts'
import { type ChainOfKinds, kindsOf, type RunKind, withRuns } from './run-kinds.ts'
import { StickSets } from './stick-sets.ts'

/** Which chains are listed to pick from: with how many runs, using how much of what a bound leaves, and how many. */
interface Stage {
  readonly runs: number
  readonly part: number
  readonly most: number
  /** Shares of the remaining work: to list them, and to pick from them. */
  readonly listing: number
  readonly picking: number
}

/**
 * All of them, if they can be listed quickly. Otherwise first small ones that use little of the bound; most chains are
 * small, and usually some of them work.
 */
const STAGES: readonly Stage[] = [
  { runs: Number.POSITIVE_INFINITY, part: 1, most: 1_500, listing: 0.1, picking: 1 },
  { runs: 3, part: 0.25, most: 12_000, listing: 0.1, picking: 0.15 },
  { runs: 4, part: 0.5, most: 12_000, listing: 0.1, picking: 0.25 },
  { runs: Number.POSITIVE_INFINITY, part: 1, most: 12_000, listing: 0.4, picking: 1 },
  { runs: 5, part: 0.5, most: 12_000, listing: 0.5, picking: 1 },
]

/** Steps to lay a piece. */
const STEPS_A_PIECE = 20

/** Looks for chains, and for bounds on them, for one problem and any number of sticks and chains. */
export class ChainSearch {
  private readonly problem: CutProblem
  private readonly bound: ChainBound
  private readonly needs: ProblemNeeds
  private readonly kinds: readonly RunKind[]
  private listed: StickSets | null = null
  /** Chains that mattered for one bound probably matter for the next. */
  private readonly known = new Candidates()
  private readonly laid = new Map<string, Layable>()

  constructor(problem: CutProblem, bound: ChainBound, needs = new ProblemNeeds(problem)) {
    this.problem = problem
    this.bound = bound
    this.needs = needs
    this.kinds = kindsOf(problem.runs, needs.runsMm)
  }

  private get sets(): StickSets {
    const { problem, needs } = this
    this.listed ??= new StickSets({ ...problem, runs: needs.runsMm.map((lengthMm) => ({ lengthMm })) })
    return this.listed
  }

  /**
   * The bound that leaves least for this number of chains of these sticks; null when the work runs out. A programme
   * takes some exchanges per kind of run, and the cost of an exchange is the square of their number.
   */
  cut(counts: readonly number[], chains: number, work: Work): ChainCut | null {
    if (this.kinds.length ** 3 > work.left) return null
    if (this.known.count === 0) addFirst(this.known, this.kinds, this.problem.kerfMm, this.sets)
    const layable = (chain: ChainOfKinds) => this.layable(chain, work) !== 'no'
    const { kinds, sets, problem } = this
    return findCut(kinds, problem.kerfMm, sets, this.whole(counts, chains), chains, this.known, work, layable)
  }

  /** All runs as one chain of these sticks; null where it is not certain that it can be laid. */
  oneChain(counts: readonly number[], work: Work): Chain[] | null {
    const chain = { kinds: this.kinds.flatMap(({ runs }, kind) => runs.map(() => kind)), sticks: counts }
    return this.layable(chain, work) === 'yes' ? withRuns(this.kinds, [chain]) : null
  }

  /**
   * Divides runs and sticks into this number of chains, using all the sticks.
   *
   * @param cut a bound on the chains
   */
  find(counts: readonly number[], chains: number, cut: ChainCut, work: Work): Chain[] | 'none' | 'gave-up' {
    const { kinds, sets, problem } = this
    const whole = this.whole(counts, chains)
    const spare = spareIn(cut, counts, whole.wasteMm, chains) + CUT_SLACK
    let found: ChainsFound = 'gave-up'
    for (const { runs, part, most, listing, picking } of STAGES) {
      const limits = { spare: part * spare, runs, most }
      const listed = withPart(work, listing, (slice) =>
        candidatesFor(kinds, problem.kerfMm, sets, cut, whole, limits, slice),
      )
      // The first few of very many are of no use.
      if (!listed.whole && runs === Number.POSITIVE_INFINITY) continue
      if (!listed.whole) this.addKnown(listed.candidates, cut, whole, spare)
      found = withPart(work, picking, (slice) =>
        new ChainPacking(listed.candidates, slice, (chain) => this.layable(chain, slice)).find(
          whole,
          chains,
          listed.whole,
        ),
      )
      if (typeof found === 'object') return withRuns(kinds, found.chains)
      if (listed.whole) return found
    }
    return found
  }

  /** As many chains as a quick search finds; null where it finds none. */
  fastChains(counts: readonly number[], work: Work): Chain[] | null {
    const most = this.bound.most(counts)
    if (most < 1) return null
    const { kinds, sets, problem } = this
    const whole = this.whole(counts, most)
    const found = manyChains(
      kinds,
      problem.kerfMm,
      sets,
      whole,
      most,
      work,
      (chain) => this.layable(chain, work) === 'yes',
    )
    return found && withRuns(kinds, found)
  }

  /** Chains that mattered for the bound. */
  private addKnown(candidates: Candidates, cut: ChainCut, { sticks, wasteMm }: Remainder, spare: number): void {
    const { known } = this
    for (let n = 0; n < known.count; n++) {
      if (known.wasteMm[n]! > wasteMm || known.sticks[n]!.some((count, t) => count > sticks[t]!)) continue
      let sum = cut.perMm * known.wasteMm[n]!
      for (const kind of known.kinds[n]!) sum += cut.shares[kind]!
      for (const [t, count] of known.sticks[n]!.entries()) sum += cut.perStick[t]! * count
      if (sum <= 1 + spare) candidates.push(known.kinds[n]!, known.sticks[n]!, known.wasteMm[n]!)
    }
  }

  private whole(counts: readonly number[], chains: number): Remainder {
    return {
      runs: this.kinds.map(({ runs }) => runs.length),
      sticks: counts,
      wasteMm: this.bound.wasteMm(counts, chains),
    }
  }

  /** What the sticks of a chain hold beyond the least that its runs need. */
  private wasteOf({ kinds, sticks }: ChainOfKinds): number {
    const { lengths, kerfMm } = this.problem
    const needMm = sum(kinds.map((kind) => this.kinds[kind]!.lengthMm)) + kerfMm * (kinds.length - 1)
    return sum(sticks.map((count, t) => count * lengths[t]!.lengthMm)) - needMm
  }

  private layable(chain: ChainOfKinds, work: Work): Layable {
    const name = `${chain.kinds.join()}|${chain.sticks.join()}`
    let known = this.laid.get(name)
    if (known === undefined) {
      const { runs, kerfMm, minimumPieceMm, lengths } = this.problem
      const [{ runs: own, sticks }] = withRuns(this.kinds, [chain]) as [Chain]
      const wasteMm = this.wasteOf(chain)
      if (exceeds(this.needs.moreOf(own, sum(sticks) - 1), wasteMm)) {
        this.laid.set(name, 'no')
        return 'no'
      }
      const most = Math.max(0, work.left) / STEPS_A_PIECE
      const laying = { left: most }
      const rules = { kerfMm, shortestMm: minimumPieceMm, work: laying }
      known = layable(runs, own, sticksMm(lengths, sticks), rules)
      work.left -= STEPS_A_PIECE * (most - laying.left)
      if (laying.left <= 0) return 'unknown'
      this.laid.set(name, known)
    }
    return known
  }
}

function withPart<T>(work: Work, part: number, done: (slice: Work) => T): T {
  const given = part * work.left
  const slice = { left: given }
  const result = done(slice)
  work.left -= given - slice.left
  return result
}
