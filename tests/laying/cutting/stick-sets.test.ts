import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StickSets } from '../../../src/laying/cutting/stick-sets.ts'

const problem = fc.record({
  runs: fc.array(fc.record({ lengthMm: fc.integer({ min: 1, max: 30 }).map((n) => n * 100) }), {
    minLength: 1,
    maxLength: 3,
  }),
  lengths: fc
    .uniqueArray(fc.constantFrom(900, 1000, 1500, 1524, 1828.8), { minLength: 1, maxLength: 3 })
    .chain((lengths) =>
      fc.tuple(
        ...lengths.map((lengthMm) =>
          fc.constantFrom(1, 2, Number.POSITIVE_INFINITY).map((limit) => ({ lengthMm, limit, free: 0, leastCost: 1 })),
        ),
      ),
    ),
  kerfMm: fc.constantFrom(0, 2),
})

/** Derived: every set by plain counting, none empty, none longer than all runs and the longest stick. */
function allSets({ runs, lengths, kerfMm }: Problem): number[][] {
  const runsMm = runs.reduce((sum, { lengthMm }) => sum + lengthMm + kerfMm, -kerfMm)
  const mostMm = runsMm + Math.max(...lengths.map(({ lengthMm }) => lengthMm)) + 1e-6
  const mm = (counts: readonly number[]) => counts.reduce((sum, count, t) => sum + count * lengths[t]!.lengthMm, 0)
  let sets: number[][] = [[]]
  for (const { lengthMm, limit } of lengths) {
    const most = Math.min(limit, Math.floor(mostMm / lengthMm))
    sets = sets.flatMap((set) => Array.from({ length: most + 1 }, (_, count) => [...set, count]))
  }
  return sets.filter((set) => set.some((count) => count > 0) && mm(set) <= mostMm)
}

interface Problem {
  readonly runs: readonly { readonly lengthMm: number }[]
  readonly lengths: readonly { readonly lengthMm: number; readonly limit: number }[]
  readonly kerfMm: number
}

describe('sets of sticks', () => {
  it('are all there are, each once, in order of length', () => {
    fc.assert(
      fc.property(problem, (given) => {
        const sets = new StickSets(given)
        const listed = Array.from({ length: sets.count }, (_, set) => sets.sticks(set))
        expect(listed.map(String).toSorted()).toEqual(allSets(given).map(String).toSorted())
        const lengths = [...sets.lengthsMm]
        expect(lengths).toEqual(lengths.toSorted((a, b) => a - b))
        for (const [set, counts] of listed.entries())
          expect(lengths[set]).toBeCloseTo(
            counts.reduce((sum, count, t) => sum + count * given.lengths[t]!.lengthMm, 0),
            6,
          )
      }),
      { seed: 4811, numRuns: 300 },
    )
  })

  it('the first of a length is the shortest that is as long; a set is within others that have as many', () => {
    fc.assert(
      fc.property(problem, fc.integer({ min: 1, max: 12_000 }), (given, mm) => {
        const sets = new StickSets(given)
        const first = sets.lengthsMm.findIndex((lengthMm) => lengthMm >= mm - 1e-6)
        expect(sets.firstOf(mm)).toBe(first < 0 ? sets.count : first)
        const [set, other] = [mm % sets.count, (7 * mm) % sets.count]
        expect(sets.isWithin(set, sets.sticks(other))).toBe(
          sets.sticks(set).every((count, t) => count <= sets.sticks(other)[t]!),
        )
      }),
      { seed: 4812, numRuns: 300 },
    )
  })
})
