import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutListProblem, planCutList } from '../../../src/laying/cutting/cut-list.ts'
import { loadHighs } from '../../reference/highs.ts'

/**
 * Cut plans against the solver HiGHS (npm `highs`), which is given the same plan as a mixed-integer programme: for each
 * run r and stick s the length x of r that is cut from s, and whether there is such a piece, y; and whether s is used, u.
 *
 * least Σ price·u + joiner·(Σ y − runs)   with Σ_s x = run,   least piece·y ≤ x ≤ longest piece·y,
 * Σ_r x + kerf·Σ_r y ≤ (stick + kerf)·u (a stick with k pieces needs k − 1 cuts),   y ≤ u
 */
function programmeOf({ runs, sticks, kerfMm, minimumPieceMm, joinerCents }: CutListProblem): string {
  const totalMm = runs.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
  const all = sticks.flatMap(({ lengthMm, priceCents, onHand }, kind) =>
    Array.from({ length: Math.ceil(totalMm / lengthMm) + 2 }, (_, n) => ({
      lengthMm,
      cents: n < onHand ? 0 : priceCents,
      name: `${kind}_${n}`,
      before: n > 0 ? `${kind}_${n - 1}` : null,
    })),
  )
  const rows: string[] = []
  const [bounds, binaries, cost]: [string[], string[], string[]] = [[], [], []]
  for (const stick of all) {
    const { name, cents, lengthMm, before } = stick
    binaries.push(`u${name}`)
    cost.push(`${cents} u${name}`)
    const held = runs.map((_, r) => `x${r}_${name} + ${kerfMm} y${r}_${name}`).join(' + ')
    rows.push(`${held} - ${lengthMm + kerfMm} u${name} <= 0`)
    // Of sticks that are alike the first are used first.
    if (before) rows.push(`u${name} - u${before} <= 0`)
    for (const [r, run] of runs.entries()) {
      const [x, y] = [`x${r}_${name}`, `y${r}_${name}`]
      const mostMm = Math.min(lengthMm, run.lengthMm)
      const leastMm = Math.min(minimumPieceMm, run.lengthMm)
      if (leastMm > mostMm) bounds.push(`${y} = 0`)
      binaries.push(y)
      cost.push(`${joinerCents} ${y}`)
      rows.push(`${x} - ${mostMm} ${y} <= 0`, `${x} - ${leastMm} ${y} >= 0`, `${y} - u${name} <= 0`)
    }
  }
  for (const [r, { lengthMm }] of runs.entries())
    rows.push(`${all.map(({ name }) => `x${r}_${name}`).join(' + ')} = ${lengthMm}`)
  return [
    'Minimize',
    ` cost: ${cost.join(' + ')}`,
    'Subject To',
    ...rows.map((row, n) => ` c${n}: ${row}`),
    ...(bounds.length > 0 ? ['Bounds', ...bounds.map((bound) => ` ${bound}`)] : []),
    'Binaries',
    ` ${binaries.join(' ')}`,
    'End',
  ].join('\n')
}

const problems: fc.Arbitrary<CutListProblem> = fc
  .record({
    runs: fc.array(fc.record({ lengthMm: fc.integer({ min: 100, max: 2600 }) }), { minLength: 1, maxLength: 4 }),
    kinds: fc.constantFrom([1524, 900], [1829, 1219], [1000, 1500]),
    perMetre: fc.tuple(fc.integer({ min: 30, max: 45 }), fc.integer({ min: 30, max: 45 })),
    onHand: fc.tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 2 })),
    kerfMm: fc.integer({ min: 0, max: 3 }),
    minimumPieceMm: fc.constantFrom(0, 150, 300),
    joinerCents: fc.constantFrom(0, 50, 110),
  })
  .map(({ kinds, perMetre, onHand, ...rest }) => ({
    ...rest,
    sticks: kinds.map((lengthMm, n) => ({
      lengthMm,
      priceCents: 25 * Math.round((lengthMm * perMetre[n]!) / 1000),
      onHand: onHand[n]!,
    })),
    effort: 'quick',
  }))

describe('the cut plan beside a mixed-integer solver', () => {
  it('never costs less, costs as little where it is called proven, and its bound holds', async () => {
    const highs = await loadHighs()
    const figures = { met: 0, plans: 25 }
    for (const problem of fc.sample(problems, { seed: 2026, numRuns: figures.plans })) {
      const solved = highs.solve(programmeOf(problem), { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-6 })
      expect(solved.Status, JSON.stringify(problem)).toBe('Optimal')
      const leastCents = Math.round(solved.ObjectiveValue - problem.joinerCents * problem.runs.length)
      const planned = planCutList(problem)
      if (!planned.ok) throw new Error(JSON.stringify(problem))
      const { costCents, costLowerBoundCents, provenOptimal } = planned.plan
      expect(costCents, JSON.stringify(problem)).toBeGreaterThanOrEqual(leastCents)
      expect(costLowerBoundCents, JSON.stringify(problem)).toBeLessThanOrEqual(leastCents)
      if (provenOptimal) expect(costCents, JSON.stringify(problem)).toBe(leastCents)
      figures.met += costCents === leastCents ? 1 : 0
    }
    expect(figures.met).toBeGreaterThanOrEqual(figures.plans - 1)
  })
})
