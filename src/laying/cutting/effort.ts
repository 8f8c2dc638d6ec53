import type { Effort } from '../../plan/rows/plan.ts'
import type { Work } from './problem.ts'

/* How long each effort looks for a better cut plan, in counted steps. */

/**
 * Steps of a whole plan, from which everything that looks for cut plans takes its own: also where rules are relaxed, and
 * all mixes with ready-made track. A step is about 10 ns.
 */
export const PLAN_STEPS: Readonly<Record<SearchEffort, number>> = {
  rough: 6_000_000,
  quick: 120_000_000,
  thorough: 1_000_000_000,
}

/** The work of a plan. */
export function workFor(effort: SearchEffort): Work {
  return { left: PLAN_STEPS[effort] }
}

/** Steps that count for more than one: a piece tried for a stick or placed, a set of sticks listed. */
export const STEPS_OF = { search: 1, stickLaying: 100, placing: 100, webs: 10, targets: 100 } as const

/**
 * Does something with a part of the work.
 *
 * @param most steps at most
 * @param each what one of them counts for
 */
export function withSteps<T>(work: Work, most: number, each: number, done: (slice: Work) => T): T {
  const given = Math.max(0, Math.min(most, Math.floor(work.left / each)))
  const slice = { left: given }
  const result = done(slice)
  work.left -= each * (given - slice.left)
  return result
}

/** What a plan may ask for, or roughly: to compare one plan with another. */
export type SearchEffort = Effort | 'rough'

/** Of going through the targets and laying chains. */
export interface ChainLimits {
  readonly targets: number
  readonly tries: number
  /** Sets of sticks tried quickly if that fails, and the work per try. */
  readonly fastSets: number
  readonly workPerFastSet: number
  readonly perTry: number
  readonly perBound: number
  readonly inAll: number
  /** For chains of the same cost with longer pieces. */
  readonly perLonger: number
  /** Pieces tried for a first plan where joints have rules. */
  readonly firstLaying: number
  /** Pieces tried when sticks are laid one after the other, for all targets. */
  readonly perStickLaying: number
}

export const CHAIN_LIMITS: Readonly<Record<SearchEffort | 'bound', ChainLimits>> = {
  rough: {
    targets: 2_000,
    tries: 1,
    fastSets: 1,
    workPerFastSet: 10_000,
    perTry: 20_000,
    perBound: 20_000,
    inAll: 40_000,
    perLonger: 0,
    firstLaying: 30_000,
    perStickLaying: 5_000,
  },
  quick: {
    targets: 20_000,
    tries: 12,
    fastSets: 4,
    workPerFastSet: 200_000,
    perTry: 5_000_000,
    perBound: 6_000_000,
    inAll: 24_000_000,
    perLonger: 2_500,
    firstLaying: 600_000,
    perStickLaying: 60_000,
  },
  thorough: {
    targets: 400_000,
    tries: 60,
    fastSets: 12,
    workPerFastSet: 4_000_000,
    perTry: 40_000_000,
    perBound: 20_000_000,
    inAll: 200_000_000,
    perLonger: 400_000,
    firstLaying: 4_000_000,
    perStickLaying: 3_000_000,
  },
  /** No search: only the bound is wanted. */
  bound: {
    targets: 20_000,
    tries: 0,
    fastSets: 0,
    workPerFastSet: 0,
    perTry: 0,
    perBound: 0,
    inAll: 1,
    perLonger: 0,
    firstLaying: 0,
    perStickLaying: 0,
  },
}

/** Steps of an exhaustive search of small problems: where joints have rules, and where they may be anywhere. */
export const EXHAUSTIVE_WORK: Readonly<Record<Effort, { readonly placing: number; readonly webs: number }>> = {
  quick: { placing: 6_000, webs: 100_000 },
  thorough: { placing: 400_000, webs: 10_000_000 },
}
