import { type ChainLayout, type LayingRules, layChain } from './lay-chain.ts'
import { layTree, type TreeLaid } from './lay-tree.ts'
import type { Run, Work } from './problem.ts'

/** With more runs or sticks not every order is tried. */
const MOST_PERMUTED = 4
const MOST_ORDERS = 24
/** Steps of the search for other arrangements where no order works: in a quick search, and otherwise. */
const FEW_STEPS = 4_000
const MOST_STEPS = 200_000
/** Steps that laying one piece costs. */
const STEPS_A_PIECE = 16

/** Whether the pieces of a chain can be made long enough in any arrangement; "no" is certain. */
export type Layable = 'yes' | 'no' | 'unknown'

export function layable(
  runs: readonly Run[],
  chainRuns: readonly number[],
  sticksMm: readonly number[],
  rules: LayingRules,
): Layable {
  const anywhere = jointsAnywhere(runs, chainRuns)
  if (anywhere && firstOrderWorks(runs, chainRuns, sticksMm, rules)) return 'yes'
  const laid = anywhere ? tree(runs, chainRuns, sticksMm, rules, MOST_STEPS) : 'gave-up'
  if (laid === 'none') return 'no'
  return laid !== 'gave-up' || arrangeChain(runs, chainRuns, sticksMm, rules) ? 'yes' : 'unknown'
}

/** Most chains can be laid in the first order of `ordersToLay`. */
function firstOrderWorks(
  runs: readonly Run[],
  chainRuns: readonly number[],
  sticksMm: readonly number[],
  rules: LayingRules,
): boolean {
  if (rules.work) rules.work.left -= chainRuns.length + sticksMm.length
  const order = largestFirst(chainRuns, (run) => runs[run]!.lengthMm)
  const inOrder = largestFirst(sticksMm, (mm) => mm)
  return layChain(runs, order, inOrder, rules) !== null
}

/**
 * Lays a chain in the first order of its runs and sticks that works; where joints may be anywhere, in
 * any other arrangement that works.
 *
 * @param first how it was laid before: that order is tried first
 */
export function arrangeChain(
  runs: readonly Run[],
  chainRuns: readonly number[],
  sticksMm: readonly number[],
  rules: LayingRules,
  first?: ChainLayout,
  mostOrders = Number.POSITIVE_INFINITY,
): ChainLayout | null {
  let tried = 0
  if (first) {
    rules.onRestart?.()
    const order = [...new Set(first.pieces.map(({ run }) => run))]
    const pieces = layChain(runs, order, first.sticksMm, rules)
    if (pieces) return { sticksMm: first.sticksMm, pieces }
  }
  const anywhere = jointsAnywhere(runs, chainRuns)
  const most = anywhere ? Math.min(mostOrders, MOST_ORDERS) : mostOrders
  for (const { order, sticksMm: sticks } of ordersToLay(runs, chainRuns, sticksMm)) {
    if (++tried > most || (rules.work && rules.work.left <= 0)) break
    rules.onRestart?.()
    if (rules.work) rules.work.left -= order.length + sticks.length
    const pieces = layChain(runs, order, sticks, rules)
    if (pieces) return { sticksMm: sticks, pieces }
  }
  rules.onRestart?.()
  if (!anywhere) return null
  const laid = tree(runs, chainRuns, sticksMm, rules, Number.isFinite(mostOrders) ? FEW_STEPS : MOST_STEPS)
  return typeof laid === 'object' ? laid.layout : null
}

/** Whether joints may be anywhere on a run, and take no trim. */
export function isFree({ jointBy, beside, trim }: Run): boolean {
  return !jointBy && !beside && !trim
}

/** The orders of runs and sticks in which a chain may be laid. */
export function* ordersToLay(
  runs: readonly Run[],
  chainRuns: readonly number[],
  sticksMm: readonly number[],
): Generator<{ readonly order: readonly number[]; readonly sticksMm: readonly number[] }> {
  const length = (run: number) => runs[run]!.lengthMm
  const kindOfRun = (run: number) => (isFree(runs[run]!) ? length(run) : -run - 1)
  const itself = (mm: number) => mm
  for (const order of ordersOf(chainRuns, length, kindOfRun))
    for (const inOrder of ordersOf(sticksMm, itself, itself)) yield { order, sticksMm: inOrder }
}

function jointsAnywhere(runs: readonly Run[], chainRuns: readonly number[]): boolean {
  return chainRuns.every((run) => isFree(runs[run]!))
}

function tree(
  runs: readonly Run[],
  chainRuns: readonly number[],
  sticksMm: readonly number[],
  rules: LayingRules,
  steps: number,
): TreeLaid {
  const own: Work = { left: steps }
  const laid = layTree(runs, chainRuns, sticksMm, rules, own)
  if (rules.work) rules.work.left -= (steps - own.left) / STEPS_A_PIECE
  return laid
}

/**
 * Every order of a few items; for many, by falling and by rising size, starting at any of them.
 *
 * @param kind items of one kind are interchangeable
 */
function* ordersOf<T>(items: readonly T[], size: (item: T) => number, kind: (item: T) => number): Generator<T[]> {
  const sorted = largestFirst(items, size)
  if (sorted.every((item) => kind(item) === kind(sorted[0]!))) yield sorted
  else if (sorted.length <= MOST_PERMUTED) yield* permutations(sorted, kind)
  else
    for (let n = 0; n < sorted.length && 2 * n < MOST_ORDERS; n++) {
      const order = [...sorted.slice(n), ...sorted.slice(0, n)]
      yield order
      yield [...order].reverse()
    }
}

function largestFirst<T>(items: readonly T[], size: (item: T) => number): T[] {
  return [...items].sort((a, b) => size(b) - size(a))
}

function permutations<T>(items: readonly T[], kind: (item: T) => number): T[][] {
  if (items.length <= 1) return [[...items]]
  const seen = new Set<number>()
  return items.flatMap((first, n) => {
    if (seen.has(kind(first))) return []
    seen.add(kind(first))
    return permutations([...items.slice(0, n), ...items.slice(n + 1)], kind).map((rest) => [first, ...rest])
  })
}
