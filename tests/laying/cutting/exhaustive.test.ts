import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bestCutPlan } from '../../../src/laying/cutting/best-cut-plan.ts'
import type { Run } from '../../../src/laying/cutting/problem.ts'
import { cases, UNHURRIED } from '../../cases.ts'
import {
  bestAnywhere,
  bestAtPlaces,
  compareWorth,
  type SmallPlaces,
  type SmallProblem,
  type Worth,
} from './brute-force.ts'

/* Derived: the optimum of small problems by going through everything, see brute-force.ts. */

type Places = SmallPlaces & { readonly jointBy: (run: number, mm: number) => number }

/** The shortest piece is brought to the tenth of a millimetre. */
const WITHIN_MM = 0.1
const PROBLEMS_AT_QUICK = cases(1000)

interface Found extends Worth {
  readonly leastCents: number
  readonly proven: boolean
}

function planned(problem: SmallProblem, places: Places | null, effort: 'quick' | 'thorough'): Found | null {
  const { runsMm, sticks, joinerCents, kerfMm, minimumPieceMm } = problem
  const money = (cents: number) => (cents / 100).toFixed(2)
  const runs = runsMm.map((lengthMm, run): Run => {
    const pair = places?.apart?.pairs.find((each) => each.includes(run))
    return {
      lengthMm,
      ...(places && { jointBy: (mm: number) => places.jointBy(run, mm) }),
      ...(pair && {
        beside: {
          run: pair[0] === run ? pair[1] : pair[0],
          stationAt: (mm: number) => mm,
          placeAt: (mm: number) => mm,
        },
      }),
    }
  })
  const supplies = {
    sticks: sticks.map(({ lengthMm, cents, onHand }) => ({
      length: lengthMm,
      price: money(cents),
      packSize: 1,
      onHand,
      buyable: true,
    })),
    joiners: { packSize: 1, pricePerPack: money(joinerCents), onHand: 0, sparePct: 0, massEachG: null },
  }
  const best = bestCutPlan(
    runs,
    supplies,
    { kerf: kerfMm, minimumPiece: minimumPieceMm },
    { otherJoints: 0, effort, apartMm: places?.apart?.byMm, cutting: 'even-pieces' },
  )
  if (!best.ok) return null
  const pieces = best.plan.sticks.flatMap((stick) => stick.pieces)
  return {
    cents: best.cost!.cents,
    leastCents: best.cost!.leastCents,
    proven: best.provenOptimal,
    joints: pieces.length - runsMm.length,
    shortestMm: Math.min(...pieces.map(({ lengthMm }) => lengthMm)),
  }
}

const stick = fc.record({
  lengthMm: fc.constantFrom(900, 1000, 1300, 1524, 1800),
  cents: fc.integer({ min: 4, max: 40 }).map((quarters) => 25 * quarters),
  onHand: fc.constantFrom(0, 0, 0, 1, 2),
})

function small(mostRuns: number, mostMm: number): fc.Arbitrary<SmallProblem> {
  return fc
    .record({
      runsMm: fc.array(
        fc.integer({ min: 5, max: 30 }).map((n) => n * 100),
        { minLength: 1, maxLength: mostRuns },
      ),
      sticks: fc.uniqueArray(stick, { minLength: 1, maxLength: 2, selector: ({ lengthMm }) => lengthMm }),
      joinerCents: fc.constantFrom(0, 50, 100, 300),
      kerfMm: fc.constantFrom(0, 1, 2),
      minimumPieceMm: fc.constantFrom(100, 150, 300),
    })
    .filter(({ runsMm }) => runsMm.reduce((sum, mm) => sum + mm, 0) <= mostMm)
}

/** Two rails of a straight track. */
const sideBySide = small(1, 2200).map((problem) => ({ ...problem, runsMm: [problem.runsMm[0]!, problem.runsMm[0]!] }))

const shortMinimum = fc.constantFrom(100, 150)
const longMinimum = fc.constantFrom(300, 400, 450, 500)
const spacing = fc.constantFrom(260, 310, 400)
const stagger = fc.constantFrom(100, 200, 300)
const keptOut = fc.array(
  fc.record({ from: fc.integer({ min: 0, max: 20 }), hundreds: fc.integer({ min: 1, max: 6 }) }),
  { minLength: 1, maxLength: 2 },
)

type KeptOut = readonly { readonly from: number; readonly hundreds: number }[]

const isFree = (keepOut: KeptOut, mm: number) =>
  keepOut.every(({ from, hundreds }) => mm <= from * 100 + 1e-6 || mm >= (from + hundreds) * 100 - 1e-6)

const upTo = (runsMm: readonly number[], place: (n: number) => number, keepOut: KeptOut) =>
  runsMm.map((endMm) => {
    const places: number[] = []
    for (let n = 0; place(n) < endMm - 1e-6; n++) if (place(n) > 0 && isFree(keepOut, place(n))) places.push(place(n))
    return places
  })

/** Joints midway between ties and nowhere else. */
function betweenTies({ runsMm }: SmallProblem, spacingMm: number, keepOut: KeptOut, staggerMm: number | null): Places {
  const placesMm = upTo(runsMm, (n) => (n + 0.5) * spacingMm, keepOut)
  return {
    placesMm,
    apart: staggerMm === null ? null : { byMm: staggerMm, pairs: [[0, 1]] },
    jointBy: (run, mm) => placesMm[run]!.findLast((place) => place <= mm + 1e-6) ?? -1,
  }
}

/** Joints anywhere but in the stretches kept free; those that are compared with stand at whole multiples of a length. */
function anywhereBut({ runsMm }: SmallProblem, keepOut: KeptOut, staggerMm: number | null, everyMm = 100): Places {
  return {
    placesMm: upTo(runsMm, (n) => n * everyMm, keepOut),
    apart: staggerMm === null ? null : { byMm: staggerMm, pairs: [[0, 1]] },
    jointBy: (_, mm) => {
      let at = mm
      for (let round = 0; round <= keepOut.length; round++)
        for (const { from, hundreds } of keepOut)
          if (at > from * 100 + 1e-6 && at < (from + hundreds) * 100 - 1e-6) at = from * 100
      return at
    },
  }
}

function expectBest(found: Found | null, best: Worth): void {
  expect(found).not.toBeNull()
  expect([found!.cents, found!.joints]).toEqual([best.cents, best.joints])
  expect(Math.abs(found!.shortestMm - best.shortestMm)).toBeLessThan(WITHIN_MM)
  expect(found!.leastCents).toBeLessThanOrEqual(best.cents)
}

describe('small problems against everything there is', () => {
  it('joints anywhere, thorough: money, joints and shortest piece', () => {
    fc.assert(
      fc.property(small(4, 4200), shortMinimum, (drawn, minimumPieceMm) => {
        const problem = { ...drawn, minimumPieceMm }
        expectBest(planned(problem, null, 'thorough'), bestAnywhere(problem)!)
      }),
      { seed: 4601, numRuns: cases(1000) },
    )
  })

  // Pieces of a third or half of a stick: the best plan may be one whose pieces go round in a circle.
  it('joints anywhere, thorough, the minimum piece a good part of a stick: money and joints', () => {
    fc.assert(
      fc.property(small(4, 4200), longMinimum, (drawn, minimumPieceMm) => {
        const problem = { ...drawn, minimumPieceMm }
        const best = bestAnywhere(problem)
        fc.pre(best !== null)
        const found = planned(problem, null, 'thorough')!
        expect(found).toMatchObject({ cents: best.cents, joints: best.joints, leastCents: best.cents, proven: true })
      }),
      { seed: 4608, numRuns: cases(1000) },
    )
  })

  it('where no plan keeps the minimum piece none is proven, and the bound is no more than it costs', () => {
    let without = 0
    fc.assert(
      fc.property(small(2, 3600), (drawn) => {
        const problem = { ...drawn, minimumPieceMm: 700 }
        fc.pre(bestAnywhere(problem) === null)
        const found = planned(problem, null, 'quick')!
        expect(found.proven).toBe(false)
        expect(found.leastCents).toBeLessThanOrEqual(bestAnywhere({ ...problem, minimumPieceMm: 1 })!.cents)
        without++
      }),
      { seed: 4609, numRuns: 100, ...UNHURRIED },
    )
    expect(without).toBe(100)
  })

  it.each([
    { minimumPieceMm: 150, share: 0.995 },
    { minimumPieceMm: 300, share: 0.995 },
    { minimumPieceMm: 450, share: 0.995 },
  ])('joints anywhere, quick, minimum $minimumPieceMm mm: hardly ever missed', ({ minimumPieceMm, share }) => {
    let met = 0
    fc.assert(
      fc.property(small(4, 4200), (drawn) => {
        const problem = { ...drawn, minimumPieceMm }
        const best = bestAnywhere(problem)
        fc.pre(best !== null)
        const found = planned(problem, null, 'quick')!
        expect(found.cents).toBeGreaterThanOrEqual(best.cents)
        expect(found.leastCents).toBeLessThanOrEqual(best.cents)
        if (found.proven) expect(found.cents).toBe(best.cents)
        if (compareWorth(found, best, WITHIN_MM) === 0) met++
      }),
      { seed: 4607, numRuns: PROBLEMS_AT_QUICK, ...UNHURRIED },
    )
    expect(met / PROBLEMS_AT_QUICK).toBeGreaterThan(share)
  })

  it('joints between ties, with and without stretches to keep out of', () => {
    fc.assert(
      fc.property(small(3, 3200), spacing, fc.option(keptOut, { nil: [] }), (problem, spacingMm, keepOut) => {
        const places = betweenTies(problem, spacingMm, keepOut, null)
        const best = bestAtPlaces(problem, places)
        fc.pre(best !== null)
        expectBest(planned(problem, places, 'thorough'), best)
      }),
      { seed: 4602, numRuns: cases(300) },
    )
  })

  it('joints of two rails kept apart, between ties', () => {
    fc.assert(
      fc.property(sideBySide, spacing, stagger, fc.option(keptOut, { nil: [] }), (problem, spacingMm, by, keepOut) => {
        const places = betweenTies(problem, spacingMm, keepOut, by)
        const best = bestAtPlaces(problem, places)
        fc.pre(best !== null)
        expectBest(planned(problem, places, 'thorough'), best)
      }),
      { seed: 4603, numRuns: cases(300) },
    )
  })

  it('joints at the ends of two pieces of one stick are kept apart too', () => {
    // By hand: between ties at 310 mm joints can only be at 465 and 1085 mm. Opposite each other at 465 mm, sticks of
    // 1000 and 1300 mm for 2.25 would do; kept apart, each rail is a stick of 1300 mm.
    const sticks = [
      { lengthMm: 1000, cents: 100, onHand: 0 },
      { lengthMm: 1300, cents: 125, onHand: 0 },
    ]
    const problem = { runsMm: [1100, 1100], sticks, joinerCents: 0, kerfMm: 0, minimumPieceMm: 100 }
    const keepOut = [
      { from: 6, hundreds: 2 },
      { from: 0, hundreds: 2 },
    ]
    for (const effort of ['quick', 'thorough'] as const)
      expect(planned(problem, betweenTies(problem, 310, keepOut, 100), effort)).toMatchObject({ cents: 250, joints: 0 })
  })

  it('what is called proven at once is the best', () => {
    fc.assert(
      fc.property(sideBySide, spacing, stagger, (problem, spacingMm, by) => {
        const places = betweenTies(problem, spacingMm, [], by)
        const best = bestAtPlaces(problem, places)
        fc.pre(best !== null)
        const found = planned(problem, places, 'quick')!
        expect(found.cents).toBeGreaterThanOrEqual(best.cents)
        expect(found.leastCents).toBeLessThanOrEqual(best.cents)
        if (found.proven) expect(found.cents).toBe(best.cents)
      }),
      { seed: 4604, numRuns: cases(300) },
    )
  })

  it('joints anywhere but in some stretches: never worse than the best with joints at every 100 mm', () => {
    fc.assert(
      fc.property(small(3, 3000), keptOut, (problem, keepOut) => {
        const places = anywhereBut(problem, keepOut, null)
        const best = bestAtPlaces(problem, places)
        fc.pre(best !== null)
        const found = planned(problem, places, 'thorough')!
        expect(compareWorth(found, best, WITHIN_MM)).toBeLessThanOrEqual(0)
      }),
      { seed: 4605, numRuns: cases(30) },
    )
  })

  it('joints of two rails kept apart, anywhere else: never worse than the best with joints at every 200 mm', () => {
    fc.assert(
      fc.property(sideBySide, stagger, fc.option(keptOut, { nil: [] }), (problem, by, keepOut) => {
        const places = anywhereBut(problem, keepOut, by, 200)
        const best = bestAtPlaces(problem, places)
        fc.pre(best !== null)
        const found = planned(problem, places, 'quick')!
        expect(compareWorth(found, best, WITHIN_MM)).toBeLessThanOrEqual(0)
      }),
      { seed: 4606, numRuns: cases(30) },
    )
  })
})

describe('the brute force itself', () => {
  const problem = { runsMm: [4000], joinerCents: 50, kerfMm: 1, minimumPieceMm: 150 }
  const sticks = [{ lengthMm: 1524, cents: 500, onHand: 0 }]

  it('4000 mm from sticks of 1524 mm: three pieces alike (by hand)', () => {
    const best = bestAnywhere({ ...problem, sticks })!
    expect(best).toMatchObject({ cents: 1600, joints: 2 })
    expect(best.shortestMm).toBeCloseTo(4000 / 3, 9)
  })

  it('runs that cannot share a stick take more of them than all are long (by hand)', () => {
    // 1400 and 1071 take two sticks of 1000 mm each and 500 one; two pieces of 500 and the cut of 2 do not go into one.
    const found = bestAnywhere({
      runsMm: [1400, 500, 1071],
      sticks: [{ lengthMm: 1000, cents: 1000, onHand: 0 }],
      joinerCents: 100,
      kerfMm: 2,
      minimumPieceMm: 500,
    })
    expect(found).toMatchObject({ cents: 5200, joints: 2 })
  })

  it('the same with joints at whole 500 mm: 1500, 1500, 1000 in any order (by hand)', () => {
    const placesMm = [[500, 1000, 1500, 2000, 2500, 3000, 3500]]
    expect(bestAtPlaces({ ...problem, sticks }, { placesMm, apart: null })).toEqual({
      cents: 1600,
      joints: 2,
      shortestMm: 1000,
    })
  })
})
