import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { Remainder } from './chain-programme.ts'
import type { Work } from './problem.ts'
import type { ChainOfKinds, RunKind } from './run-kinds.ts'
import type { StickSets } from './stick-sets.ts'

/** With more kinds of runs, groups of three are not tried. */
const MOST_KINDS_FOR_THREES = 48
const MOST_SMALL_CHAINS = 1500
/** Chains that waste more than this multiple of their fair share are left out. */
const MOST_TIMES_FAIR_SHARE = 3

interface SmallChain extends ChainOfKinds {
  readonly wasteMm: number
}

/**
 * As many chains as a quick search finds, using all the sticks: the single runs, pairs and threes that waste least are
 * taken, and the rest is laid as one chain; this is repeated with a slightly different order each time
 * (by a fixed series of numbers).
 *
 * @param chains the most possible
 * @param layable whether the pieces of a chain can be made long enough
 * @returns null where none were found
 */
export function manyChains(
  kinds: readonly RunKind[],
  kerfMm: number,
  sets: StickSets,
  whole: Remainder,
  chains: number,
  work: Work,
  layable: (chain: ChainOfKinds) => boolean,
): ChainOfKinds[] | null {
  const fairMm = Math.max(whole.wasteMm, 0) / chains
  const small = smallChains(kinds, kerfMm, sets, Math.min(whole.wasteMm, MOST_TIMES_FAIR_SHARE * fairMm), work)
  const random = seriesFrom(chains)
  const runCount = whole.runs.reduce((sum, count) => sum + count, 0)
  let most: ChainOfKinds[] | null = null
  while (work.left > 0) {
    work.left -= STEPS_A_CHAIN * (small.length + runCount)
    const pairs = random()
    const key = small.map((chain) => (chain.wasteMm + fairMm) * (chain.kinds.length > 2 ? 1 : pairs) * (0.3 + random()))
    const order = small.map((_, n) => n).sort((a, b) => key[a]! - key[b]!)
    const runs = [...whole.runs]
    const sticks = [...whole.sticks]
    let { wasteMm } = whole
    let runsLeft = runCount
    const found: ChainOfKinds[] = []
    for (const n of order) {
      const chain = small[n]!
      // The same chain may occur again where runs are equal.
      while (
        work.left > 0 &&
        found.length < chains - 1 &&
        runsLeft > chain.kinds.length &&
        chain.wasteMm <= wasteMm + LENGTH_SLACK_MM &&
        chain.sticks.every((count, t) => count <= sticks[t]!) &&
        holds(runs, chain.kinds) &&
        layable(chain)
      ) {
        for (const kind of chain.kinds) runs[kind]!--
        for (const [t, count] of chain.sticks.entries()) sticks[t]! -= count
        wasteMm -= chain.wasteMm
        runsLeft -= chain.kinds.length
        found.push(chain)
      }
    }
    if (found.length < (most?.length ?? 0)) continue
    const last = { kinds: runs.flatMap((count, kind) => new Array<number>(count).fill(kind)), sticks }
    if (layable(last)) most = [...found, last]
  }
  return most
}

/** Steps per chain that is tried, used or not. */
const STEPS_A_CHAIN = 20

function holds(runs: readonly number[], kinds: readonly number[]): boolean {
  return kinds.every((kind) => kinds.filter((each) => each === kind).length <= runs[kind]!)
}

/** Single runs, pairs and threes with the shortest sticks that hold them. */
function smallChains(
  kinds: readonly RunKind[],
  kerfMm: number,
  sets: StickSets,
  mostMm: number,
  work: Work,
): SmallChain[] {
  const found: SmallChain[] = []
  const add = (members: readonly number[]) => {
    const mm = members.reduce((sum, kind) => sum + kinds[kind]!.lengthMm + kerfMm, -kerfMm)
    const set = sets.firstOf(mm)
    if (set >= sets.count) return
    const wasteMm = Math.max(0, sets.lengthsMm[set]! - mm)
    if (wasteMm <= mostMm + LENGTH_SLACK_MM) found.push({ kinds: members, sticks: sets.sticks(set), wasteMm })
  }
  for (let a = 0; a < kinds.length; a++) {
    add([a])
    work.left -= kinds.length - a
    for (let b = a; b < kinds.length && work.left > 0; b++) {
      add([a, b])
      for (let c = b; c < kinds.length && kinds.length <= MOST_KINDS_FOR_THREES; c++) add([a, b, c])
    }
  }
  return found.sort((a, b) => a.kinds.length - b.kinds.length || a.wasteMm - b.wasteMm).slice(0, MOST_SMALL_CHAINS)
}

/** Numbers in [0, 1), the same series for the same seed (linear congruential, Numerical Recipes). */
function seriesFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}
