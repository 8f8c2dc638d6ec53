import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ChainBound } from '../../../src/laying/cutting/chain-bound.ts'
import { ChainSearch } from '../../../src/laying/cutting/chain-search.ts'
import type { CutProblem } from '../../../src/laying/cutting/problem.ts'

/*
 * Derived: on a small problem every way to make the runs and the sticks into chains is gone through, by what a chain is
 * (Σ sticks ≥ Σ runs + kerf·(runs − 1)), and the bounds are held against the most chains there are.
 */

type Small = Pick<CutProblem, 'runs' | 'lengths' | 'kerfMm'>

const small: fc.Arbitrary<{ problem: Small; counts: number[] }> = fc
  .record({
    runsMm: fc.array(
      fc.integer({ min: 2, max: 40 }).map((n) => n * 100),
      { minLength: 1, maxLength: 5 },
    ),
    sticksMm: fc.uniqueArray(fc.constantFrom(900, 1000, 1500, 1524, 1828.8), { minLength: 1, maxLength: 2 }),
    kerfMm: fc.constantFrom(0, 1, 2),
    counts: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 2, maxLength: 2 }),
  })
  .map(({ runsMm, sticksMm, kerfMm, counts }) => ({
    problem: {
      runs: runsMm.map((lengthMm) => ({ lengthMm })),
      lengths: sticksMm.map((lengthMm) => ({ lengthMm, limit: Number.POSITIVE_INFINITY, free: 0, leastCost: 1 })),
      kerfMm,
    },
    counts: counts.slice(0, sticksMm.length),
  }))

/** Where nothing has a price, and pieces may be of any length. */
function toSearch(problem: Small): CutProblem {
  return { ...problem, minimumPieceMm: 0, costOf: () => 0, joinersCost: () => 0, cutting: 'even-pieces' }
}

/** The most chains that all these runs and sticks can be divided into, and 0 where there is no way. */
function mostChains({ runs, lengths, kerfMm }: Small, counts: readonly number[]): number {
  const known = new Map<string, number>()
  const most = (left: readonly number[], sticks: readonly number[]): number => {
    if (left.length === 0) return sticks.every((count) => count === 0) ? 0 : Number.NEGATIVE_INFINITY
    const key = `${left}|${sticks}`
    const before = known.get(key)
    if (before !== undefined) return before
    let best = Number.NEGATIVE_INFINITY
    const [first, ...others] = left
    for (let mask = 0; mask < 1 << others.length; mask++) {
      const taken = [first!, ...others.filter((_, n) => mask & (1 << n))]
      const neededMm = taken.reduce((sum, run) => sum + runs[run]!.lengthMm + kerfMm, -kerfMm)
      const rest = others.filter((_, n) => !(mask & (1 << n)))
      for (const used of allUpTo(sticks)) {
        const haveMm = used.reduce((sum, count, t) => sum + count * lengths[t]!.lengthMm, 0)
        if (haveMm >= neededMm - 1e-6)
          best = Math.max(
            best,
            1 +
              most(
                rest,
                sticks.map((count, t) => count - used[t]!),
              ),
          )
      }
    }
    known.set(key, best)
    return best
  }
  return Math.max(
    0,
    most(
      runs.map((_, run) => run),
      counts,
    ),
  )
}

function allUpTo(counts: readonly number[]): number[][] {
  return counts.reduce<number[][]>(
    (ways, count) => ways.flatMap((way) => Array.from({ length: count + 1 }, (_, n) => [...way, n])),
    [[]],
  )
}

describe('chains and the bounds on them', () => {
  it('the chain bound is never below the most chains there are', () => {
    fc.assert(
      fc.property(small, ({ problem, counts }) => {
        expect(Math.max(0, new ChainBound(problem).most(counts))).toBeGreaterThanOrEqual(mostChains(problem, counts))
      }),
      { seed: 4801, numRuns: 600 },
    )
  })

  it('nor is the bound by shares, and it only makes the chain bound tighter', () => {
    let tighter = 0
    fc.assert(
      fc.property(small, ({ problem, counts }) => {
        const bound = new ChainBound(problem)
        const before = bound.most(counts)
        fc.pre(before >= 1)
        const cut = new ChainSearch(toSearch(problem), bound).cut(counts, before, { left: 1_000_000 })
        expect(cut).not.toBeNull()
        bound.add(cut!)
        const most = mostChains(problem, counts)
        expect(Math.max(0, bound.most(counts))).toBeGreaterThanOrEqual(most)
        expect(bound.most(counts)).toBeLessThanOrEqual(before)
        if (bound.most(counts) < before) tighter++
      }),
      { seed: 4802, numRuns: 600 },
    )
    expect(tighter).toBeGreaterThan(0)
  })

  it('as many chains as there are at most are found, and no more', () => {
    fc.assert(
      fc.property(small, ({ problem, counts }) => {
        const most = mostChains(problem, counts)
        fc.pre(most >= 1)
        const bound = new ChainBound(problem)
        const search = new ChainSearch(toSearch(problem), bound)
        const found = (chains: number) => {
          const cut = search.cut(counts, chains, { left: 1_000_000 })
          return search.find(counts, chains, cut!, { left: 1_000_000 })
        }
        expect(found(most)).toHaveLength(most)
        expect(['none', 'gave-up']).toContain(found(most + 1))
      }),
      { seed: 4803, numRuns: 600 },
    )
  })

  it('all runs on all sticks are one chain exactly where the sticks hold them', () => {
    let held = 0
    fc.assert(
      fc.property(small, ({ problem, counts }) => {
        const bound = new ChainBound(problem)
        const chains = new ChainSearch(toSearch(problem), bound).oneChain(counts, { left: 1_000_000 })
        const haveMm = counts.reduce((sum, count, t) => sum + count * problem.lengths[t]!.lengthMm, 0)
        const neededMm = problem.runs.reduce((sum, { lengthMm }) => sum + lengthMm + problem.kerfMm, -problem.kerfMm)
        if (haveMm < neededMm - 1e-6) expect(chains).toBeNull()
        else {
          held++
          expect(chains).toHaveLength(1)
          expect(chains![0]!.sticks).toEqual(counts)
          expect(chains![0]!.runs.toSorted()).toEqual(problem.runs.map((_, run) => run))
        }
      }),
      { seed: 4804, numRuns: 600 },
    )
    expect(held).toBeGreaterThan(0)
  })

  it('twelve lengths of 6 ft from twelve sticks are twelve chains, a thousandth of a millimetre short or not', () => {
    const foot = 304.8
    const twelve = (lengthMm: number) =>
      new ChainBound({
        runs: Array.from({ length: 12 }, () => ({ lengthMm })),
        lengths: [{ lengthMm: 6 * foot, limit: Number.POSITIVE_INFINITY, free: 0, leastCost: 1 }],
        kerfMm: 1,
      })
    expect(twelve(6 * foot).most([12])).toBe(12)
    expect(twelve(6 * foot - 1e-3).most([12])).toBe(12)
    expect(twelve(6 * foot + 1e-3).most([12])).toBeLessThan(1)
  })
})
