import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { Layable } from './arrange-chain.ts'
import { Candidates } from './candidates.ts'
import { type ChainCut, CUT_SLACK, type GroupVisitor, groupsUnder, SetPrices } from './chain-cut.ts'
import { ChainProgramme, type Remainder } from './chain-programme.ts'
import type { Work } from './problem.ts'
import type { ChainOfKinds, RunKind } from './run-kinds.ts'
import type { StickSets } from './stick-sets.ts'

/** Chains were found, or there are none, or the work ran out before that was known. */
export type ChainsFound = { readonly chains: ChainOfKinds[] } | 'none' | 'gave-up'

/** From here on a candidate counts as fully used. */
const WHOLE = 1 - 1e-6
const STEPS_A_GROUP = 4

/**
 * Every chain that can be one of the given number: it must not exceed 1 by more than the bound leaves for all of them.
 *
 * @returns the candidates, and whether the list is complete
 */
export function candidatesFor(
  kinds: readonly RunKind[],
  kerfMm: number,
  sets: StickSets,
  cut: ChainCut,
  { sticks, wasteMm }: Remainder,
  { spare, runs: mostRuns, most }: { readonly spare: number; readonly runs: number; readonly most: number },
  work: Work,
): { candidates: Candidates; whole: boolean } {
  const candidates = new Candidates()
  const prices = new SetPrices(sets, cut)
  const limit = 1 + spare
  const search = { shares: cut.shares, least: prices.least }
  const visit: GroupVisitor = (members, neededMm, firstSet, shareSum) => {
    work.left -= STEPS_A_GROUP
    for (let set = firstSet; set < sets.count; set++) {
      const wasted = Math.max(0, sets.lengthsMm[set]! - neededMm)
      const sum = shareSum + cut.perMm * wasted
      if (wasted > wasteMm + LENGTH_SLACK_MM || sum > limit) break
      if (sum + prices.own[set]! > limit || !sets.isWithin(set, sticks)) continue
      candidates.push(members, sets.sticks(set), wasted)
    }
    return work.left > 0 && candidates.count < most
  }
  const whole = groupsUnder(kinds, kerfMm, sets, search, limit, mostRuns, visit)
  return { candidates, whole: whole && mostRuns === Number.POSITIVE_INFINITY && wasteMm <= sets.wholeBeyondMm }
}

/**
 * Picks the given number of chains from candidates so that no run, stick or waste is used twice; the rest is
 * the last of them. A depth-first search guided by the linear programme: the candidate it uses most is taken, then left
 * out; where the programme cannot reach that number of chains, whole chains cannot either.
 */
export class ChainPacking {
  private readonly candidates: Candidates
  private readonly work: Work
  private readonly layable: (chain: ChainOfKinds) => Layable
  /** Only what was proven useless was left out. */
  private whole = true

  constructor(candidates: Candidates, work: Work, layable: (chain: ChainOfKinds) => Layable) {
    this.candidates = candidates
    this.work = work
    this.layable = layable
  }

  /** @param whole whether the list of candidates is complete */
  find(remainder: Remainder, chains: number, whole: boolean): ChainsFound {
    this.whole = whole
    const all = Array.from({ length: this.candidates.count }, (_, n) => n)
    const found = this.pick(remainder, chains, all, null, [])
    return found ? { chains: found } : this.whole ? 'none' : 'gave-up'
  }

  private pick(
    left: Remainder,
    chains: number,
    among: readonly number[],
    solution: ReadonlyMap<number, number> | null,
    likely: readonly number[],
  ): ChainOfKinds[] | null {
    if (chains === 1) return this.last(left, among)
    let open = among
    let taken = solution
    let first = likely
    for (;;) {
      if (!taken) {
        const programme = new ChainProgramme(this.candidates, left, chains, first)
        if (this.work.left <= 0 || !programme.solve(open, this.work)) {
          this.whole = false
          return null
        }
        const spare = programme.spare + CUT_SLACK
        if (spare < 0) return null
        taken = programme.taken()
        const unlayable = new Set([...taken.keys()].filter((n) => this.layable(this.chain(n)) === 'no'))
        open = open.filter((n) => programme.excessOf(n) <= spare && !unlayable.has(n))
        if (unlayable.size > 0) {
          first = [...taken.keys()].filter((n) => !unlayable.has(n))
          taken = null
          continue
        }
      }
      let most = 0
      let best = -1
      for (const [n, part] of taken)
        if (part > most + CUT_SLACK) {
          most = part
          best = n
        }
      if (best < 0) return null
      const chain = this.chain(best)
      const layable = this.layable(chain)
      if (layable === 'unknown') this.whole = false
      if (layable === 'yes') {
        const rest = remainderWithout(left, chain, this.candidates.wasteMm[best]!)
        this.work.left -= open.length
        const openThen = open.filter((n) => this.fits(n, rest))
        const stillOpen = new Set(openThen)
        const likelyThen = [...taken.keys()].filter((n) => stillOpen.has(n))
        // Where the programme uses all of it the rest of its solution stays valid.
        const others = most >= WHOLE ? withOneLess(taken, best) : null
        const solutionThen = others && [...others.keys()].every((n) => stillOpen.has(n)) ? others : null
        const found = this.pick(rest, chains - 1, openThen, solutionThen, likelyThen)
        if (found) return [chain, ...found]
        if (this.work.left <= 0) {
          this.whole = false
          return null
        }
      }
      open = open.filter((n) => n !== best)
      first = [...taken.keys()].filter((n) => n !== best)
      taken = null
    }
  }

  /** Where the rest cannot be laid as one chain there is no solution unless part of it can. */
  private last({ runs, sticks, wasteMm }: Remainder, among: readonly number[]): ChainOfKinds[] | null {
    const kinds = runs.flatMap((count, kind) => new Array<number>(count).fill(kind))
    if (kinds.length === 0 || wasteMm < -LENGTH_SLACK_MM * kinds.length) return null
    const chain = { kinds, sticks }
    if (this.layable(chain) === 'yes') return [chain]
    if (among.some((n) => this.layable(this.chain(n)) !== 'no')) this.whole = false
    return null
  }

  private chain(n: number): ChainOfKinds {
    return { kinds: this.candidates.kinds[n]!, sticks: this.candidates.sticks[n]! }
  }

  private fits(n: number, { runs, sticks, wasteMm }: Remainder): boolean {
    const { candidates } = this
    if (candidates.wasteMm[n]! > wasteMm + LENGTH_SLACK_MM) return false
    const needed = candidates.sticks[n]!
    for (let t = 0; t < needed.length; t++) if (needed[t]! > sticks[t]!) return false
    const kinds = candidates.kinds[n]!
    for (let at = 0, same = 1; at < kinds.length; at++, same++) {
      if (at > 0 && kinds[at] !== kinds[at - 1]) same = 1
      if (same > runs[kinds[at]!]!) return false
    }
    return true
  }
}

function remainderWithout({ runs, sticks, wasteMm }: Remainder, chain: ChainOfKinds, wasted: number): Remainder {
  const left = [...runs]
  for (const kind of chain.kinds) left[kind]!--
  return { runs: left, sticks: sticks.map((count, t) => count - chain.sticks[t]!), wasteMm: wasteMm - wasted }
}

function withOneLess(taken: ReadonlyMap<number, number>, candidate: number): Map<number, number> {
  const rest = new Map(taken)
  const part = rest.get(candidate)! - 1
  if (part > 1 - WHOLE) rest.set(candidate, part)
  else rest.delete(candidate)
  return rest
}
