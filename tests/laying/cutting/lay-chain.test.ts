import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { arrangeChain } from '../../../src/laying/cutting/arrange-chain.ts'
import { layChain } from '../../../src/laying/cutting/lay-chain.ts'
import { layChains } from '../../../src/laying/cutting/lay-chains.ts'
import type { CutProblem } from '../../../src/laying/cutting/problem.ts'

const LONGEST_WITHIN_MM = 0.1

function problemOf(runsMm: readonly number[], sticksMm: readonly number[], more: Partial<CutProblem> = {}): CutProblem {
  return {
    runs: runsMm.map((lengthMm) => ({ lengthMm })),
    lengths: sticksMm.map((lengthMm) => ({ lengthMm, limit: Number.POSITIVE_INFINITY, free: 0, leastCost: 1 })),
    kerfMm: 1,
    minimumPieceMm: 150,
    costOf: (counts) => counts.reduce((sum, count) => sum + count, 0),
    joinersCost: () => 0,
    cutting: 'even-pieces',
    ...more,
  }
}

const piecesMm = (layouts: ReturnType<typeof layChains>) =>
  layouts!.flatMap(({ pieces }) => pieces.map(({ lengthMm }) => lengthMm))

describe('laying a chain', () => {
  it('r runs over b sticks are r + b − 1 pieces, and fit just when Σ sticks ≥ Σ runs + kerf·(r − 1)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 200, max: 4000 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 3 }),
        fc.constantFrom(-1e-3, 0, 1e-3),
        (runsMm, kerfMm, spareMm) => {
          const neededMm = runsMm.reduce((sum, mm) => sum + mm, 0) + kerfMm * (runsMm.length - 1)
          const sticks = Math.ceil(neededMm / 1500)
          const sticksMm = new Array<number>(sticks).fill((neededMm + spareMm) / sticks)
          const runs = runsMm.map((lengthMm) => ({ lengthMm }))
          const order = runs.map((_, run) => run)
          const pieces = layChain(runs, order, sticksMm, { kerfMm, shortestMm: 0 })
          expect(pieces !== null).toBe(spareMm >= 0)
          if (pieces) expect(pieces.length).toBeLessThanOrEqual(runs.length + sticks - 1)
        },
      ),
      { seed: 4701, numRuns: 500 },
    )
  })

  it('tries the sticks in another order where the first does not do (by hand)', () => {
    // 1100 + 500 from 1000 and 650: the long stick first leaves 100 of the first run, which is too short a piece.
    const runs = [{ lengthMm: 1100 }, { lengthMm: 500 }]
    const rules = { kerfMm: 1, shortestMm: 150 }
    expect(arrangeChain(runs, [0, 1], [1000, 650], rules)).not.toBeNull()
    expect(arrangeChain(runs, [0, 1], [1000, 600], rules)).toBeNull()
  })
})

describe('the longest shortest piece', () => {
  it('4000 mm from three sticks of 1524 mm: three of 1333⅓ (closed form)', () => {
    const found = piecesMm(layChains(problemOf([4000], [1524]), [{ runs: [0], sticks: [3] }]))
    expect(found).toHaveLength(3)
    expect(Math.min(...found)).toBeGreaterThan(4000 / 3 - LONGEST_WITHIN_MM)
  })

  it('no longer than what the other run leaves of the stick: 1524 − 1000 − 1 (by hand)', () => {
    const chain = { runs: [0, 1], sticks: [2] }
    const found = piecesMm(layChains(problemOf([1000, 2000], [1524]), [chain]))
    expect(found).toHaveLength(3)
    expect(Math.min(...found)).toBeGreaterThan(523 - LONGEST_WITHIN_MM)
    expect(Math.min(...found)).toBeLessThanOrEqual(523 + 1e-6)
  })

  it('null where no piece can be so long', () => {
    expect(layChains(problemOf([4000], [1524]), [{ runs: [0], sticks: [3] }], 1334)).toBeNull()
  })
})
