import type { Candidates } from './candidates.ts'
import { type ChainCut, type GroupVisitor, groupsUnder, SetPrices } from './chain-cut.ts'
import { ChainProgramme, type Remainder, TOLERANCE } from './chain-programme.ts'
import type { Work } from './problem.ts'
import type { ChainOfKinds, RunKind } from './run-kinds.ts'
import type { StickSets } from './stick-sets.ts'

/** How many of the chains that violate a bound most are added at a time. */
const TAKEN_A_ROUND = 24
/**
 * Chains that violate a bound are looked for among small ones first: they violate it most, and there are fewer of them.
 */
const SIZES = [2, 3, 4, Number.POSITIVE_INFINITY] as const
/** This many are enough to choose from, and the steps that each group costs. */
const ENOUGH_FOUND = 400
const STEPS_A_GROUP = 4
/** Chains are ruled out only by at least this much, so that rounding does not matter. */
const CLEARLY_FEWER = 1e-3
/** A bound that allows only this part of what is to be ruled out is found quickly. */
const EASY = 0.65
const LEAST_LIMIT = 0.1
/** Pairs to begin with, per kind of run. */
const PAIRS_PER_KIND = 8

/** Chains to begin with: single runs, and for each kind the pairs that waste least. */
export function addFirst(candidates: Candidates, kinds: readonly RunKind[], kerfMm: number, sets: StickSets): void {
  const wasteOf = (mm: number) => {
    const set = sets.firstOf(mm)
    return set < sets.count ? { set, wasteMm: Math.max(0, sets.lengthsMm[set]! - mm) } : null
  }
  for (let a = 0; a < kinds.length; a++) {
    const alone = wasteOf(kinds[a]!.lengthMm)
    if (alone) candidates.add([a], sets.sticks(alone.set), alone.wasteMm)
    const pairs: { b: number; set: number; wasteMm: number }[] = []
    for (let b = a; b < kinds.length; b++) {
      if (b === a && kinds[a]!.runs.length < 2) continue
      const pair = wasteOf(kinds[a]!.lengthMm + kinds[b]!.lengthMm + kerfMm)
      if (pair) pairs.push({ b, ...pair })
    }
    pairs.sort((x, y) => x.wasteMm - y.wasteMm)
    for (const { b, set, wasteMm } of pairs.slice(0, PAIRS_PER_KIND)) candidates.add([a, b], sets.sticks(set), wasteMm)
  }
}

/**
 * The bound that allows these runs and sticks the fewest chains, by linear programming over the chains: those that
 * violate the bound are looked for and added until there are none (column generation).
 *
 * Where the chains known so far allow at most `value`, and clearly fewer than wanted, the bound is not optimised fully:
 * when every chain adds up to θ = value ÷ k or more, all shares and prices divided by θ are also a bound, of k chains
 * (Farley 1990). The smaller θ, the fewer groups of runs have to be visited.
 *
 * @param chains how many are wanted
 * @param candidates chains that are already known; those that mattered are added
 * @param layable false where the pieces of a chain certainly cannot be made long enough
 * @returns null when the work runs out
 */
export function findCut(
  kinds: readonly RunKind[],
  kerfMm: number,
  sets: StickSets,
  whole: Remainder,
  chains: number,
  candidates: Candidates,
  work: Work,
  layable: (chain: ChainOfKinds) => boolean,
): ChainCut | null {
  const programme = new ChainProgramme(candidates, whole)
  for (;;) {
    if (!programme.solve(allIndices(candidates.count), work)) return null
    const { shares, perMm, perStick } = programme
    const shareSum = shares.reduce((sum, share, kind) => sum + share * kinds[kind]!.runs.length, 0)
    const cut = { shares, shareSum, perMm, perStick }
    const { value } = programme
    const fewer = Math.min(chains, Math.max(Math.floor(value + CLEARLY_FEWER) + 1, Math.ceil(value / EASY)))
    const limit = Math.min(1, Math.max(LEAST_LIMIT, value / (fewer - CLEARLY_FEWER))) - 2 * TOLERANCE
    const added = addViolating(kinds, kerfMm, sets, cut, limit, candidates, work, layable)
    if (added === null) return null
    if (added > 0) continue
    return {
      shares: shares.map((share) => share / limit),
      shareSum: shareSum / limit,
      perMm: perMm / limit,
      perStick: perStick.map((price) => price / limit),
    }
  }
}

/** Adds chains that violate a bound; returns how many; null where that is not known. */
function addViolating(
  kinds: readonly RunKind[],
  kerfMm: number,
  sets: StickSets,
  cut: ChainCut,
  limit: number,
  candidates: Candidates,
  work: Work,
  layable: (chain: ChainOfKinds) => boolean,
): number | null {
  const prices = new SetPrices(sets, cut)
  work.left -= sets.count
  const small = 1 - 2 * TOLERANCE
  const search = { shares: cut.shares, least: prices.least }
  for (const size of SIZES) {
    const below = size === Number.POSITIVE_INFINITY ? limit : small
    const found: { kinds: number[]; set: number; wasteMm: number; sum: number }[] = []
    const visit: GroupVisitor = (members, neededMm, firstSet, shareSum) => {
      work.left -= STEPS_A_GROUP
      const best = prices.best[firstSet]!
      if (best < 0) return true
      const least = shareSum + cut.perMm * Math.max(0, sets.lengthsMm[best]! - neededMm) + prices.own[best]!
      if (least < below) {
        const group = { kinds: members, neededMm, firstSet, shareSum }
        const broken = worstViolation(group, sets, prices, cut.perMm, below, layable)
        if (broken) found.push({ kinds: [...members], ...broken })
      }
      return work.left > 0 && found.length < ENOUGH_FOUND
    }
    const whole = groupsUnder(kinds, kerfMm, sets, search, below, size, visit)
    found.sort((a, b) => a.sum - b.sum)
    let added = 0
    for (const { kinds: members, set, wasteMm } of found.slice(0, TAKEN_A_ROUND))
      if (candidates.add(members, sets.sticks(set), wasteMm)) added++
    if (added > 0) return added
    if (!whole && size === Number.POSITIVE_INFINITY) return null
  }
  return 0
}

interface Violation {
  readonly set: number
  readonly wasteMm: number
  readonly sum: number
}

/** Of the sticks with which a group adds up to less than `below` and can be laid, those with the lowest sum. */
function worstViolation(
  group: { kinds: readonly number[]; neededMm: number; firstSet: number; shareSum: number },
  sets: StickSets,
  prices: SetPrices,
  perMm: number,
  below: number,
  layable: (chain: ChainOfKinds) => boolean,
): Violation | null {
  const { kinds, neededMm, firstSet, shareSum } = group
  let worst: Violation | null = null
  const consider = (set: number) => {
    const wasteMm = Math.max(0, sets.lengthsMm[set]! - neededMm)
    const sum = shareSum + perMm * wasteMm + prices.own[set]!
    if (sum < (worst?.sum ?? below) && layable({ kinds, sticks: sets.sticks(set) })) worst = { set, wasteMm, sum }
    return shareSum + perMm * wasteMm < below
  }
  consider(prices.best[firstSet]!)
  if (worst) return worst
  for (let set = firstSet; set < sets.count && consider(set); set++);
  return worst
}

/** The numbers from 0 to count − 1. */
function allIndices(count: number): Int32Array {
  return Int32Array.from({ length: count }, (_, n) => n)
}
