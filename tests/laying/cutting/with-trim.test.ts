import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bestCutPlan } from '../../../src/laying/cutting/best-cut-plan.ts'
import type { Run } from '../../../src/laying/cutting/problem.ts'
import { RunNeeds } from '../../../src/laying/cutting/run-needs.ts'
import { RunTrim, type Stretch } from '../../../src/laying/cutting/trim.ts'
import { cases } from '../../cases.ts'
import { arc, estimateOf, planOf, straight } from '../../estimate/plans.ts'
import { bestAtPlaces, type SmallProblem } from './brute-force.ts'

/* Derived: small problems with trimmed ends against everything there is, with joints at whole multiples of a length. */

const EACH_MM = 50

/** Own words for the rule: an end is trimmed if a bend of the piece is nearer to it than half a span. */
function trimMm(bends: readonly Stretch[], fromMm: number, toMm: number): number {
  const own = bends.filter((bend) => bend.fromMm < toMm - 1e-9 && bend.toMm > fromMm + 1e-9)
  const start = own.some((bend) => bend.fromMm < fromMm + EACH_MM - 1e-9)
  const end = own.some((bend) => bend.toMm > toMm - EACH_MM + 1e-9)
  return (start ? EACH_MM : 0) + (end ? EACH_MM : 0)
}

const every = (mm: number, endMm: number) =>
  Array.from({ length: Math.ceil(endMm / mm) - 1 }, (_, n) => (n + 1) * mm).filter((place) => place < endMm)

function runOf(lengthMm: number, bends: readonly Stretch[], everyMm: number): Run {
  return {
    lengthMm,
    jointBy: (mm) => Math.floor((mm + 1e-6) / everyMm) * everyMm || -1,
    trim: new RunTrim({ bends, eachMm: EACH_MM, creepAt: 'end' }),
  }
}

/** A straight or bent stretch after the other, in whole tens of millimetres. */
const drawnBends = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 90 })), { maxLength: 3 })
  .map((parts) => {
    let atMm = 0
    return parts.map(([straightTens, bentTens]): Stretch => {
      const fromMm = atMm + 10 * straightTens
      atMm = fromMm + 10 * bentTens
      return { fromMm, toMm: atMm }
    })
  })

const within = (bends: readonly Stretch[], endMm: number): Stretch[] =>
  bends.filter(({ fromMm }) => fromMm < endMm).map(({ fromMm, toMm }) => ({ fromMm, toMm: Math.min(toMm, endMm) }))

/** The least rail of one run with each number of joints, by trying all. */
function leastByJoints(lengthMm: number, bends: readonly Stretch[], longestMm: number, everyMm: number): number[] {
  const places = every(everyMm, lengthMm)
  const least: number[] = []
  const lay = (fromMm: number, joints: number, railMm: number) => {
    for (const toMm of [...places.filter((mm) => mm > fromMm), lengthMm]) {
      const sawnMm = toMm - fromMm + trimMm(bends, fromMm, toMm)
      if (sawnMm > longestMm + 1e-9) continue
      if (toMm < lengthMm) lay(toMm, joints + 1, railMm + sawnMm)
      else least[joints] = Math.min(least[joints] ?? Number.POSITIVE_INFINITY, railMm + sawnMm)
    }
  }
  lay(0, 0, 0)
  return least
}

describe('the least rail of a run', () => {
  it('is that of the best division, with each number of joints', () => {
    let bent = 0
    fc.assert(
      fc.property(
        drawnBends,
        fc.integer({ min: 4, max: 16 }),
        fc.constantFrom(310, 500, 700),
        (drawn, n, longestMm) => {
          const lengthMm = 100 * n + 30
          const bends = within(drawn, lengthMm)
          const least = leastByJoints(lengthMm, bends, longestMm, 100)
          fc.pre(least.length > 0)
          const needs = new RunNeeds(runOf(lengthMm, bends, 100), longestMm, EACH_MM)
          expect(needs.fewestJoints).toBe(least.findIndex((mm) => mm !== undefined))
          let soFarMm = Number.POSITIVE_INFINITY
          for (let joints = needs.fewestJoints; joints < least.length; joints++) {
            soFarMm = Math.min(soFarMm, least[joints] ?? Number.POSITIVE_INFINITY)
            expect(needs.withJoints(joints)).toBeCloseTo(soFarMm, 6)
          }
          expect(needs.leastMm).toBeCloseTo(soFarMm, 6)
          if (bends.length > 0) bent++
        },
      ),
      { seed: 8101, numRuns: cases(300) },
    )
    expect(bent).toBeGreaterThan(20)
  })
})

describe('small plans with trim', () => {
  const stick = fc.record({
    lengthMm: fc.constantFrom(600, 900, 1000, 1300),
    cents: fc.integer({ min: 4, max: 40 }).map((quarters) => 25 * quarters),
    onHand: fc.constantFrom(0, 0, 1),
  })
  const drawn = fc.record({
    runs: fc.array(fc.tuple(fc.integer({ min: 4, max: 16 }), drawnBends), { minLength: 1, maxLength: 2 }),
    sticks: fc.uniqueArray(stick, { minLength: 1, maxLength: 2, selector: ({ lengthMm }) => lengthMm }),
    joinerCents: fc.constantFrom(0, 50, 100),
  })

  it('the bound is never above the best, what is proven is the best, and the best is hardly ever missed', () => {
    let met = 0
    let all = 0
    let proven = 0
    fc.assert(
      fc.property(drawn, ({ runs, sticks, joinerCents }) => {
        const runsMm = runs.map(([n]) => 100 * n)
        const bends = runs.map(([n, drawnHere]) => within(drawnHere, 100 * n))
        const problem: SmallProblem = { runsMm, sticks, joinerCents, kerfMm: 1, minimumPieceMm: 200 }
        const best = bestAtPlaces(problem, {
          placesMm: runsMm.map((mm) => every(100, mm)),
          apart: null,
          trimMm: (run, fromMm, toMm) => trimMm(bends[run]!, fromMm, toMm),
        })
        fc.pre(best !== null)
        const money = (cents: number) => (cents / 100).toFixed(2)
        const found = bestCutPlan(
          runsMm.map((mm, run) => runOf(mm, bends[run]!, 100)),
          {
            sticks: sticks.map(({ lengthMm, cents, onHand }) => ({
              length: lengthMm,
              price: money(cents),
              packSize: 1,
              onHand,
              buyable: true,
            })),
            joiners: { packSize: 1, pricePerPack: money(joinerCents), onHand: 0, sparePct: 0, massEachG: null },
          },
          { kerf: 1, minimumPiece: 200 },
          { otherJoints: 0, effort: 'quick', cutting: 'whole-sticks' },
        )
        if (!found.ok) throw new Error(`${found.missingMm} mm missing`)
        const { cents, leastCents } = found.cost!
        expect(leastCents).toBeLessThanOrEqual(best.cents)
        expect(cents).toBeGreaterThanOrEqual(best.cents)
        if (found.provenOptimal) expect(cents).toBe(best.cents)
        for (const { lengthMm, offcutMm, kerfMm, pieces } of found.plan.sticks) {
          const sawnMm = pieces.reduce((sum, piece) => {
            const owed = trimMm(bends[piece.run]!, piece.fromMm, piece.fromMm + piece.lengthMm)
            expect(piece.trimStartMm + piece.trimEndMm).toBe(owed)
            return sum + piece.lengthMm + owed
          }, 0)
          expect(sawnMm + kerfMm + offcutMm).toBeCloseTo(lengthMm, 6)
        }
        all++
        if (cents === best.cents) met++
        if (found.provenOptimal) proven++
      }),
      { seed: 8102, numRuns: cases(150) },
    )
    expect(met / all).toBeGreaterThan(0.98)
    expect(proven / all).toBeGreaterThan(0.9)
  })

  it('two rails share two sticks in a circle, with all joints in straights, where a third would be bought', () => {
    // by hand: 700 + 10° + 700 at R 2438 are 1829.7 and 1821.3 on the rails, 3651 of 3657.6 mm. The outer is 0.9 longer
    // than a stick, so both rails are divided; joints 50 mm and more from the bend need no trim
    const bender = { span: 100, outerRollerRadius: 12.7, bearsOn: 'foot', mode: 'rolled', ends: 'trim' } as const
    const supplies = { sticks: [{ length: 1828.8, price: '30.00' }] }
    const { cutting } = estimateOf(planOf([straight(700), arc(2438, 10), straight(700)], {}, { supplies, bender }))
    expect([cutting.sticksUsed, cutting.cost, cutting.provenOptimal]).toEqual([2, '60.00', true])
    expect(cutting.sticks.flatMap(({ pieces }) => pieces.map(({ trimMm }) => trimMm))).toEqual([0, 0, 0, 0])
  })
})
