import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DualSimplex } from '../../src/measure/dual-simplex.ts'
import { loadHighs } from '../reference/highs.ts'

interface Condition {
  readonly row: readonly number[]
  readonly atLeast: number
}

/** Smallest weights · z with z ≥ 0 and every row · z ≥ what it has to be: the most missed one is taken up each time. */
function solve(weights: readonly number[], conditions: readonly Condition[]): DualSimplex | null {
  const programme = new DualSimplex(new Float64Array(weights.length), weights)
  const all = [...conditions, ...weights.map((_, k) => ({ row: weights.map((_, n) => (n === k ? 1 : 0)), atLeast: 0 }))]
  for (let exchange = 0; exchange < 100; exchange++) {
    const missing = all.map(
      ({ row, atLeast }) => atLeast - row.reduce((sum, each, k) => sum + each * programme.z[k]!, 0),
    )
    const most = missing.indexOf(Math.max(...missing))
    if (missing[most]! <= 1e-9) return programme
    if (!programme.exchange(all[most]!.row, missing[most]!, most)) return null
  }
  throw new Error('the exchanges do not end')
}

/** By hand, at the corners of the plane. */
const BY_HAND = [
  {
    what: 'one condition, the cheaper unknown: 2x + y, x + y ≥ 3',
    weights: [2, 1],
    conditions: [{ row: [1, 1], atLeast: 3 }],
    z: [0, 3],
  },
  {
    what: 'where two conditions meet: x + y, 2x + y ≥ 4, x + 3y ≥ 6',
    weights: [1, 1],
    conditions: [
      { row: [2, 1], atLeast: 4 },
      { row: [1, 3], atLeast: 6 },
    ],
    z: [1.2, 1.6],
  },
  {
    what: 'an upper limit: 3x + 2y, x + y ≥ 5, −y ≥ −2',
    weights: [3, 2],
    conditions: [
      { row: [1, 1], atLeast: 5 },
      { row: [0, -1], atLeast: -2 },
    ],
    z: [3, 2],
  },
  { what: 'nothing asked', weights: [1, 4, 2], conditions: [], z: [0, 0, 0] },
]

describe('the dual simplex method', () => {
  it.each(BY_HAND)('$what', ({ weights, conditions, z }) => {
    const found = solve(weights, conditions)!
    for (const [k, value] of z.entries()) expect(found.z[k]).toBeCloseTo(value, 9)
  })

  it('the prices of the conditions pay for the value (duality, closed form)', () => {
    const conditions = [
      { row: [2, 1], atLeast: 4 },
      { row: [1, 3], atLeast: 6 },
    ]
    const { prices, active, z } = solve([1, 1], conditions)!
    let value = 0
    for (const [k, condition] of active.entries()) value += prices[k]! * (conditions[condition]?.atLeast ?? 0)
    expect(value).toBeCloseTo(z[0]! + z[1]!, 9)
    expect(Math.min(...prices)).toBeGreaterThanOrEqual(0)
  })

  it('names the active condition in each place, and −1 where a lower limit is (by hand)', () => {
    expect([...solve([2, 1], [{ row: [1, 1], atLeast: 3 }])!.active]).toEqual([-1, 0])
  })

  it('says when conditions exclude each other: x ≥ 2 and −x ≥ −1', () => {
    const conditions = [
      { row: [1], atLeast: 2 },
      { row: [-1], atLeast: -1 },
    ]
    expect(solve([1], conditions)).toBeNull()
  })

  it('finds what the solver HiGHS (npm `highs`) finds, and no z where it finds none', async () => {
    const highs = await loadHighs()
    const programmes = fc.integer({ min: 1, max: 8 }).chain((size) =>
      fc.record({
        weights: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: size, maxLength: size }),
        conditions: fc.array(
          fc.record({
            row: fc.array(fc.integer({ min: -4, max: 9 }), { minLength: size, maxLength: size }),
            atLeast: fc.integer({ min: -20, max: 40 }),
          }),
          { minLength: 1, maxLength: 12 },
        ),
      }),
    )
    const counts = { solved: 0, none: 0 }
    for (const { weights, conditions } of fc.sample(programmes, { seed: 1954, numRuns: 200 })) {
      const terms = (row: readonly number[]) => row.map((each, k) => `${each} z${k}`).join(' + ')
      const rows = conditions.map(({ row, atLeast }, n) => ` c${n}: ${terms(row)} >= ${atLeast}`)
      const programme = ['Minimize', ` value: ${terms(weights)}`, 'Subject To', ...rows, 'End'].join('\n')
      const known = highs.solve(programme.replaceAll('+ -', '- '), { output_flag: false })
      const found = solve(weights, conditions)
      if (known.Status === 'Infeasible') {
        expect(found).toBeNull()
        counts.none += 1
      } else {
        expect(known.Status).toBe('Optimal')
        const value = weights.reduce((sum, weight, k) => sum + weight * found!.z[k]!, 0)
        expect(value).toBeCloseTo(known.ObjectiveValue, 6)
        counts.solved += 1
      }
    }
    expect(Math.min(counts.solved, counts.none)).toBeGreaterThan(10)
  })
})
