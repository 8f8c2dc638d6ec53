import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type ChainPiece, layChain } from '../../../src/laying/cutting/lay-chain.ts'
import { layTree } from '../../../src/laying/cutting/lay-tree.ts'

interface Group {
  readonly runsMm: readonly number[]
  readonly sticksMm: readonly number[]
  readonly kerfMm: number
  readonly shortestMm: number
}

function laid({ runsMm, sticksMm, kerfMm, shortestMm }: Group) {
  const runs = runsMm.map((lengthMm) => ({ lengthMm }))
  const all = runs.map((_, run) => run)
  return layTree(runs, all, sticksMm, { kerfMm, shortestMm }, { left: 1_000_000 })
}

/** What is wrong with the pieces, by what pieces are. */
function faultsOf({ runsMm, sticksMm, kerfMm, shortestMm }: Group, pieces: readonly ChainPiece[]): string[] {
  const faults: string[] = []
  for (const [run, lengthMm] of runsMm.entries()) {
    const own = pieces.filter((piece) => piece.run === run).sort((a, b) => a.fromMm - b.fromMm)
    let atMm = 0
    for (const piece of own) {
      if (Math.abs(piece.fromMm - atMm) > 1e-6) faults.push(`a gap in run ${run} at ${atMm}`)
      atMm += piece.lengthMm
      if (own.length > 1 && piece.lengthMm < shortestMm - 1e-6) faults.push(`a piece of ${piece.lengthMm}`)
    }
    if (Math.abs(atMm - lengthMm) > 1e-6) faults.push(`run ${run} ends at ${atMm}`)
  }
  for (const [stick, lengthMm] of sticksMm.entries()) {
    const own = pieces.filter((piece) => piece.stick === stick)
    const neededMm = own.reduce((sum, piece) => sum + piece.lengthMm + kerfMm, -kerfMm)
    if (neededMm > lengthMm + 1e-6) faults.push(`${neededMm} from a stick of ${lengthMm}`)
  }
  if (pieces.length > runsMm.length + sticksMm.length - 1) faults.push(`${pieces.length} pieces`)
  return faults
}

const group: fc.Arbitrary<Group> = fc.record({
  runsMm: fc.array(
    fc.integer({ min: 2, max: 30 }).map((n) => 100 * n),
    { minLength: 1, maxLength: 4 },
  ),
  sticksMm: fc
    .array(fc.constantFrom(900, 1000, 1300), { minLength: 1, maxLength: 6 })
    .map((sticks) => sticks.sort((a, b) => b - a)),
  kerfMm: fc.constantFrom(0, 1),
  shortestMm: fc.constantFrom(100, 300, 450),
})

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length <= 1) return [[...items]]
  return items.flatMap((first, n) => permutations(items.filter((_, at) => at !== n)).map((rest) => [first, ...rest]))
}

describe('runs laid over sticks as a tree', () => {
  it('three runs that share one stick, where end to end a piece would be too short (by hand)', () => {
    // Each run is a whole stick and 250; end to end the second would begin with 1000 − 250 − 250 or end with it.
    const three = { runsMm: [1250, 1250, 1250], sticksMm: [1000, 1000, 1000, 750], kerfMm: 0, shortestMm: 250 }
    const found = laid(three)
    expect(found).toMatchObject({ layout: { sticksMm: three.sticksMm } })
    if (typeof found === 'object') {
      expect(found.layout.pieces).toHaveLength(6)
      expect(faultsOf(three, found.layout.pieces)).toEqual([])
    }
  })

  it('two runs of 1641 and 1354 from two sticks of 1500 leave a piece of 141, whatever is done (by hand)', () => {
    const two = { runsMm: [1641, 1354], sticksMm: [1500, 1500], kerfMm: 1 }
    expect(laid({ ...two, shortestMm: 150 })).toBe('none')
    expect(laid({ ...two, shortestMm: 141 })).toMatchObject({ layout: {} })
  })

  it('is sound, and there is one wherever runs can be laid end to end in any order', () => {
    let ways = 0
    fc.assert(
      fc.property(group, (each) => {
        const found = laid(each)
        expect(found).not.toBe('gave-up')
        if (typeof found === 'object') {
          ways++
          expect(faultsOf(each, found.layout.pieces)).toEqual([])
          return
        }
        const { runsMm, sticksMm, kerfMm, shortestMm } = each
        const runs = runsMm.map((lengthMm) => ({ lengthMm }))
        for (const order of permutations(runs.map((_, run) => run)))
          for (const sticks of new Set(permutations(sticksMm.slice(0, 5)).map((mm) => mm.join())))
            expect(layChain(runs, order, sticks.split(',').map(Number), { kerfMm, shortestMm })).toBeNull()
      }),
      { seed: 4901, numRuns: 400 },
    )
    expect(ways).toBeGreaterThan(100)
  })
})
