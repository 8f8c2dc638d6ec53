import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cheaperFor } from '../../../src/laying/cutting/compare-plans.ts'
import { type CutPlan, planCuts } from '../../../src/laying/cutting/cut-plan.ts'
import type { Run } from '../../../src/laying/cutting/problem.ts'
import { RunTrim } from '../../../src/laying/cutting/trim.ts'
import type { Stick } from '../../../src/plan/rows/supplies.ts'

const RULES = { kerf: 1, minimumPiece: 150 }
const PACK = { packSize: 1, pricePerPack: null, onHand: 0, sparePct: 0, massEachG: null }
const stick = (lengthMm: number, more: Partial<Stick> = {}): Stick => ({
  length: lengthMm,
  price: null,
  packSize: 1,
  onHand: 0,
  buyable: true,
  ...more,
})

/** A run bent between two places, by a bender of some span. */
const bent = (lengthMm: number, fromMm: number, toMm: number, spanMm: number): Run => ({
  lengthMm,
  trim: new RunTrim({ bends: [{ fromMm, toMm }], eachMm: spanMm / 2, creepAt: 'end' }),
})

const SUPPLIES = {
  currency: 'USD',
  taxRatePct: null,
  joiners: PACK,
  ties: { ...PACK, spacing: 45, fastenersPerTie: 4, tiesPerStrip: null, jointTies: false },
  fasteners: PACK,
  ...RULES,
}

function cut(runs: readonly Run[], sticks: readonly Stick[]): CutPlan {
  const result = planCuts(runs, sticks, RULES, cheaperFor({ ...SUPPLIES, sticks }, 0))
  if (!result.ok) throw new Error(`${result.missingMm} mm missing`)
  return result.plan
}

const piecesOf = (plan: CutPlan, run = 0) =>
  plan.sticks
    .flatMap((one) => one.pieces)
    .filter((piece) => piece.run === run)
    .sort((a, b) => a.fromMm - b.fromMm)
    .map(({ lengthMm }) => lengthMm)

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

describe('which ends are trimmed', () => {
  // A bend from 1000 to 1600, half a span of 50.
  const { trim } = bent(3000, 1000, 1600, 100)
  it.each([
    ['far from the bend on both sides', 700, 2000, 0, 0],
    ['exactly half a span from it', 950, 1650, 0, 0],
    ['nearer than that', 951, 1649, 50, 50],
    ['in it', 1200, 1400, 50, 50],
    ['at its own ends', 1000, 1600, 50, 50],
    ['straight up to the bend', 200, 1000, 0, 0],
    ['straight from the bend on', 1600, 2500, 0, 0],
    ['one end in it', 400, 1300, 0, 50],
    ['too short to reach it', 960, 990, 0, 0],
  ])('%s', (_, fromMm, toMm, startMm, endMm) => {
    expect(trim!.ofPiece(fromMm, toMm)).toEqual({ startMm, endMm })
  })

  it('creep is cut off the end that is not held', () => {
    const spec = { bends: [{ fromMm: 0, toMm: 900 }], eachMm: 50, creepMm: (mm: number) => mm / 10 }
    // by hand: 400 bent along the whole piece creep 40
    expect(new RunTrim({ ...spec, creepAt: 'end' }).ofPiece(100, 500)).toEqual({ startMm: 50, endMm: 90 })
    expect(new RunTrim({ ...spec, creepAt: 'start' }).ofPiece(100, 500)).toEqual({ startMm: 90, endMm: 50 })
  })
})

it('a piece reaches as far as its rail, or back to the bend if its end would need too much', () => {
  const { trim } = bent(3000, 1000, 1600, 100)
  // by hand, from 0: up to 1000 no trim; 1040 reaches only the start of the bend; 1200 = 1150 + 50; 1640 = 1590 + 50;
  // from 1650 on no trim again
  for (const [sawnMm, toMm] of [
    [900, 900],
    [1040, 1000],
    [1200, 1150],
    [1640, 1590],
    [1660, 1660],
  ] as const)
    expect(trim!.reachMm(0, sawnMm)).toBe(toMm)
  // up to 1640, by hand: 1690 = 1640 + 50, 1660 = 1610 + 50
  expect(trim!.reachMm(0, 1690, 1640)).toBe(1640)
  expect(trim!.reachMm(0, 1660, 1640)).toBe(1610)
})

it('a piece is the stick less its trim, and the last one is cut that much longer', () => {
  // by hand: 3000 all bent, 50 off each end of 1500: 1400 + 1400 + 200; the last takes 200 + 100 + 1 and leaves 1199
  const plan = cut([bent(3000, 0, 3000, 100)], [stick(1500)])
  expect(piecesOf(plan)).toEqual([1400, 1400, 200])
  expect(plan.sticks.map(({ trimMm, kerfMm, offcutMm }) => [trimMm, kerfMm, offcutMm])).toEqual([
    [100, 0, 0],
    [100, 0, 0],
    [100, 1, 1199],
  ])
  // waste is all that is bought and not laid: 4500 − 3000
  expect(plan.wasteMm).toBe(1500)
  expect(plan.reusableMm).toBe(1199)
})

it('a piece that carries no bend is not trimmed', () => {
  // by hand: straight up to 1500, bent beyond: 1500, then 1400 and 100, made up to the shortest piece: 1350 + 150
  const plan = cut([bent(3000, 1500, 3000, 100)], [stick(1500)])
  expect(piecesOf(plan)).toEqual([1500, 1350, 150])
  expect(plan.sticks.map(({ trimMm }) => trimMm)).toEqual([0, 100, 100])
})

it('where the bend begins near the end of a stick the piece ends before it, untrimmed', () => {
  // by hand: 1450 straight; 1500 − 100 = 1400 would reach no bend and need no trim, so the piece goes up to the bend;
  // the 1450 left are 1400 and 50, made up to the shortest piece: 1300 + 150
  const plan = cut([bent(2900, 1450, 2900, 100)], [stick(1500)])
  expect(piecesOf(plan).map((mm) => Math.round(mm * 1e4) / 1e4)).toEqual([1450, 1300, 150])
  expect(plan.sticks.map(({ trimMm }) => trimMm)).toEqual([0, 100, 100])
})

it('creep that grows with the piece takes its share of the stick', () => {
  // by hand: a tenth of every piece: 1650/1.1 = 1500
  const trim = new RunTrim({ bends: [], eachMm: 0, creepMm: (mm) => mm / 10, creepAt: 'end' })
  const growing: Run = { lengthMm: 3300, trim }
  const plan = cut([growing], [stick(1650)])
  expect(piecesOf(plan).map((mm) => Math.round(mm * 1e4) / 1e4)).toEqual([1500, 1500, 300])
})

it('a stick that would be all trim is laid nowhere it is bent', () => {
  const sticks = [stick(1500), stick(100, { onHand: 500, buyable: false })]
  const supplies = { ...SUPPLIES, sticks }
  const free = { kerf: 0, minimumPiece: 0 }
  const result = planCuts([bent(4000, 1000, 4000, 100)], sticks, free, cheaperFor(supplies, 0))
  if (!result.ok) throw new Error(`${result.missingMm} mm missing`)
  // by hand: ten short ones on the straight, then 1400 + 1400 + 200
  expect(piecesOf(result.plan)).toEqual([...Array(10).fill(100), 1400, 1400, 200])
  expect(planCuts([bent(400, 0, 400, 100)], [stick(100)], free, cheaperFor(supplies, 0))).toMatchObject({ ok: false })
})

it('gives up where all that is left would be trim, rather than go on in parts too small to count as bent', () => {
  // A bend counts on a piece from a millionth of a millimetre on, so a shorter part of one needs no trim.
  const run = bent(4000, 76, 4000, 996)
  const sticks = [stick(35, { onHand: 9, buyable: false }), stick(996, { onHand: 1, buyable: false })]
  const free = { kerf: 0, minimumPiece: 0 }
  expect(planCuts([run], sticks, free, cheaperFor({ ...SUPPLIES, sticks }, 0))).toMatchObject({ ok: false })
})

it('a piece that fits only untrimmed takes a stick of its own', () => {
  // by hand: the offcut of 700 would hold 650, but not with its trim of 100
  const straight: Run = { lengthMm: 799 }
  const loose = cut([straight, { lengthMm: 650 }], [stick(1500)])
  const trimmed = cut([straight, bent(650, 0, 650, 100)], [stick(1500)])
  expect([loose.sticks.length, trimmed.sticks.length]).toEqual([1, 2])
})

it('a run without anything to trim is cut as ever', () => {
  const runs = [3000, 2222, 160].map((lengthMm) => ({ lengthMm }))
  const none = runs.map((run) => ({ ...run, trim: new RunTrim({ bends: [], eachMm: 50, creepAt: 'end' }) }))
  expect(cut(none, [stick(1500), stick(1100, { onHand: 2 })])).toEqual(
    cut(runs, [stick(1500), stick(1100, { onHand: 2 })]),
  )
})

it('random runs: every stick is its pieces, trim, kerf and offcut, and nothing is missing', () => {
  const run = fc
    .tuple(
      fc.double({ min: 300, max: 12_000, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 1, max: 300, noNaN: true }),
    )
    .map(([lengthMm, a, b, byMm]) => bent(lengthMm, Math.min(a, b) * lengthMm, Math.max(a, b) * lengthMm, byMm))
  const sticks = fc.constantFrom(
    [stick(1524)],
    [stick(1828.8), stick(914.4, { onHand: 3 })],
    [stick(1200, { onHand: 2, buyable: false }), stick(1000)],
  )
  let trimmed = 0
  fc.assert(
    fc.property(fc.array(run, { minLength: 1, maxLength: 6 }), sticks, (runs, rows) => {
      const plan = cut(runs, rows)
      for (const { lengthMm, trimMm, kerfMm, offcutMm, pieces } of plan.sticks) {
        const piecesMm = sum(pieces.map((piece) => piece.lengthMm))
        expect(Math.abs(piecesMm + trimMm + kerfMm + offcutMm - lengthMm)).toBeLessThan(1e-6)
        const owed = pieces.map((p) => runs[p.run]!.trim!.ofPiece(p.fromMm, p.fromMm + p.lengthMm))
        expect(pieces.map(({ trimStartMm: startMm, trimEndMm: endMm }) => ({ startMm, endMm }))).toEqual(owed)
        expect(trimMm).toBeCloseTo(sum(owed.map(({ startMm, endMm }) => startMm + endMm)), 6)
        if (trimMm > 0) trimmed++
      }
      runs.forEach(({ lengthMm }, index) => {
        // Lengths are counted with a slack of 1e-6 mm.
        expect(Math.abs(sum(piecesOf(plan, index)) - lengthMm)).toBeLessThan(2e-6)
      })
      const bought = sum(plan.sticks.map(({ lengthMm }) => lengthMm))
      expect(plan.wasteMm).toBeCloseTo(bought - sum(runs.map(({ lengthMm }) => lengthMm)), 5)
      expect(plan.sticks.length).toBeGreaterThanOrEqual(plan.sticksLowerBound)
    }),
    { numRuns: 500 },
  )
  expect(trimmed).toBeGreaterThan(200)
})
