import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Programme, smallestBounds } from '../../../src/bending/bend-check/linear-program.ts'

const WEIGHT = 50
const solve = (programme: Programme) => smallestBounds(programme, WEIGHT, { left: Number.POSITIVE_INFINITY })

interface Small {
  readonly bands: { row: number[]; middle: number; allowance: number; bound: 0 | 1 }[]
  readonly notNegative: number[][]
}

function programmeOf({ bands, notNegative }: Small, unknowns: number, lower: number): Programme {
  return {
    unknowns,
    bands: {
      products: (x, into) => into.set(bands.map(({ row }) => row.reduce((sum, part, k) => sum + part * x[k]!, 0))),
      row: (n, into) => into.set(bands[n]!.row),
    },
    middles: Float64Array.from(bands.map(({ middle }) => middle)),
    allowances: Float64Array.from(bands.map(({ allowance }) => allowance)),
    boundOf: Uint8Array.from(bands.map(({ bound }) => bound)),
    notNegative: notNegative.map((row) => Float64Array.from(row)),
    lower: new Float64Array(unknowns).fill(lower),
  }
}

/** What a point costs with the smallest bounds that hold it; infinite outside the half-spaces. */
function costAt({ bands, notNegative }: Small, x: ArrayLike<number>): number {
  const at = (row: number[]) => row.reduce((sum, part, k) => sum + part * x[k]!, 0)
  if (notNegative.some((row) => at(row) < -1e-8)) return Number.POSITIVE_INFINITY
  const bounds = [0, 0]
  for (const { row, middle, allowance, bound } of bands)
    bounds[bound] = Math.max(bounds[bound]!, Math.abs(at(row) - middle) - allowance)
  return bounds[0]! + WEIGHT * bounds[1]!
}

const coefficient = fc.integer({ min: -10, max: 10 }).map((n) => n / 10)
const small: fc.Arbitrary<Small> = fc.record({
  bands: fc.array(
    fc.record({
      row: fc.tuple(coefficient, coefficient).map((row) => [...row]),
      middle: coefficient,
      allowance: fc.constantFrom(0, 0, 0.3),
      bound: fc.constantFrom<0 | 1>(0, 0, 1),
    }),
    { minLength: 2, maxLength: 7 },
  ),
  notNegative: fc.array(
    fc.tuple(coefficient, coefficient).map((row) => [...row]),
    { maxLength: 2 },
  ),
})

describe('the linear programme', () => {
  it('by hand: a constant nearest to 1, 4 and 9 is 5, off by 4, and the outer two decide', () => {
    const bands = [1, 4, 9].map((middle) => ({ row: [1], middle, allowance: 0, bound: 0 as const }))
    const corner = solve(programmeOf({ bands, notNegative: [] }, 1, -100))!
    expect(corner.x[0]).toBeCloseTo(5, 12)
    expect([...corner.decisive].sort()).toEqual([0, 2])
    expect(corner.pressing).toEqual([])
  })

  it('by hand: not negative, it stays at 0 and that presses', () => {
    const bands = [{ row: [1], middle: -3, allowance: 0, bound: 0 as const }]
    const corner = solve(programmeOf({ bands, notNegative: [[1]] }, 1, -100))!
    expect(corner.x[0]).toBeCloseTo(0, 12)
    expect(corner.pressing).toEqual([0])
  })

  it('is never undercut by any point of a grid about its corner or over the whole range', () => {
    fc.assert(
      fc.property(small, (problem) => {
        const corner = solve(programmeOf(problem, 2, -4))
        expect(corner).not.toBeNull()
        const best = costAt(problem, corner!.x)
        for (let i = -20; i <= 20; i++)
          for (let j = -20; j <= 20; j++) {
            expect(costAt(problem, [i / 5, j / 5])).toBeGreaterThanOrEqual(best - 1e-7)
            const near = [corner!.x[0]! + i / 500, corner!.x[1]! + j / 500] as const
            if (near.every((value) => value >= -4)) expect(costAt(problem, near)).toBeGreaterThanOrEqual(best - 1e-7)
          }
      }),
      { numRuns: 60 },
    )
  })

  it('says so when nothing satisfies it: x ≥ 1 cannot be had from −x ≥ 0', () => {
    const programme = programmeOf({ bands: [], notNegative: [[-1]] }, 1, 1)
    expect(solve(programme)).toBeNull()
  })
})
