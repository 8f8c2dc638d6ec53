import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { RunKind } from './run-kinds.ts'
import type { StickSets } from './stick-sets.ts'

/**
 * A bound on chains by their contents: a run of kind k has a share sₖ ≥ 0, a millimetre of waste the price m ≥ 0, a
 * stick of length t the price pₜ ≥ 0, such that every chain that can be laid adds up to 1 or more:
 *
 *   Σ sₖ + m·waste + Σ pₜ ≥ 1.
 *
 * Chains have no run, stick or waste in common, so in total
 *
 *   chains ≤ Σ s over all the runs + m·(total waste) + Σ p over all the sticks.
 *
 * It holds for any sticks and any number of chains.
 */
export interface ChainCut {
  /** By kind of run. */
  readonly shares: Float64Array
  readonly shareSum: number
  readonly perMm: number
  /** By length of stick. */
  readonly perStick: Float64Array
}

/** Slack for comparing sums of bounds with whole chains. */
export const CUT_SLACK = 1e-6

/** How much of the bound a number of chains of these sticks leaves; below 0: there cannot be so many. */
export function spareIn(cut: ChainCut, counts: readonly number[], wasteMm: number, chains: number): number {
  let most = cut.shareSum + cut.perMm * (wasteMm + chains * LENGTH_SLACK_MM)
  for (let t = 0; t < counts.length; t++) most += cut.perStick[t]! * counts[t]!
  return most - chains
}

/** The prices of sets of sticks under a bound. */
export class SetPrices {
  /** The price of each set. */
  readonly own: Float64Array
  /** From each set on, the one with the lowest price including its waste. */
  readonly best: Int32Array
  /** From each set on, the lowest price of any set, including sets too long to be listed. */
  readonly least: Float64Array

  constructor({ count, kinds, counts, lengthsMm, wholeUpToMm }: StickSets, { perMm, perStick }: ChainCut) {
    this.own = new Float64Array(count)
    this.best = new Int32Array(count + 1)
    this.best[count] = -1
    this.least = new Float64Array(count + 1)
    this.least[count] = Number.POSITIVE_INFINITY
    for (let set = 0; set < count; set++) {
      let price = 0
      for (let t = 0; t < kinds; t++) price += perStick[t]! * counts[set * kinds + t]!
      this.own[set] = price
    }
    // Every unlisted set contains a listed one that is at most one stick shorter than the limit.
    if (Number.isFinite(wholeUpToMm))
      for (let set = count - 1; set >= 0 && lengthsMm[set]! > wholeUpToMm; set--)
        this.least[count] = Math.min(this.least[count]!, this.own[set]!)
    let best = -1
    let bestCost = Number.POSITIVE_INFINITY
    let least = this.least[count]!
    for (let set = count - 1; set >= 0; set--) {
      const own = this.own[set]!
      const cost = own + perMm * lengthsMm[set]!
      if (cost <= bestCost) {
        best = set
        bestCost = cost
      }
      least = Math.min(least, own)
      this.best[set] = best
      this.least[set] = least
    }
  }
}

/**
 * Called for a group of runs that may form a chain, with its kinds (once per run), the total length its sticks
 * need, the first set that long, and the sum of the shares of its runs.
 *
 * @returns whether to go on
 */
export type GroupVisitor = (kinds: readonly number[], neededMm: number, firstSet: number, shareSum: number) => boolean

/**
 * Visits the groups of runs whose chain may add up to at most `limit` under a bound.
 *
 * @param mostRuns larger groups are left out
 * @returns whether only larger groups were left out
 */
export function groupsUnder(
  kinds: readonly RunKind[],
  kerfMm: number,
  sets: StickSets,
  { shares, least }: { readonly shares: Float64Array; readonly least: Float64Array },
  limit: number,
  mostRuns: number,
  visit: GroupVisitor,
): boolean {
  const order = kinds.map((_, kind) => kind).sort((a, b) => shares[a]! - shares[b]! || a - b)
  const taken: number[] = []
  let whole = true
  const take = (from: number, had: number, shareBefore: number, mm: number): boolean => {
    for (let at = from, used = had; at < order.length; at++, used = 0) {
      const kind = order[at]!
      const shareSum = shareBefore + shares[kind]!
      if (shareSum > limit) return true
      const { lengthMm, runs } = kinds[kind]!
      if (used >= runs.length) continue
      const neededMm = mm + lengthMm
      const firstSet = sets.firstOf(neededMm)
      if (shareSum + least[firstSet]! > limit) continue
      if (neededMm > sets.wholeUpToMm) {
        whole = false
        continue
      }
      taken.push(kind)
      const goOn =
        visit(taken, neededMm, firstSet, shareSum) &&
        (taken.length >= mostRuns || take(at, used + 1, shareSum, neededMm + kerfMm))
      taken.pop()
      if (!goOn) {
        whole = false
        return false
      }
    }
    return true
  }
  take(0, 0, 0, 0)
  return whole
}
