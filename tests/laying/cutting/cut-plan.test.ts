import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutSupplies, cheaperFor } from '../../../src/laying/cutting/compare-plans.ts'
import { type CutPlan, fewestSticks, planCuts } from '../../../src/laying/cutting/cut-plan.ts'
import type { Stick } from '../../../src/plan/rows/supplies.ts'
import { cases } from '../../cases.ts'

const FOOT = 304.8
const stick = (lengthMm: number, more: Partial<Stick> = {}): Stick => ({
  length: lengthMm,
  price: null,
  packSize: 1,
  onHand: 0,
  buyable: true,
  ...more,
})
const rules = { kerf: 1, minimumPiece: 150 }

function supplies(sticks: readonly Stick[]): CutSupplies {
  return { sticks, joiners: { packSize: 1, pricePerPack: '0.90', onHand: 0, sparePct: 0, massEachG: null } }
}

function plan(lengths: readonly number[], sticks: readonly Stick[], own = rules): CutPlan {
  const runs = lengths.map((lengthMm) => ({ lengthMm }))
  const result = planCuts(runs, sticks, own, cheaperFor(supplies(sticks), 0))
  if (!result.ok) throw new Error(`no plan: ${result.missingMm} mm missing`)
  expectSound(lengths, sticks, own, result.plan)
  return result.plan
}

/** Everything a cut plan must keep, read from the plan alone. */
function expectSound(lengths: readonly number[], sticks: readonly Stick[], own: typeof rules, cuts: CutPlan) {
  for (const { lengthMm, kerfMm, offcutMm, pieces } of cuts.sticks) {
    const piecesMm = pieces.reduce((sum, piece) => sum + piece.lengthMm, 0)
    expect(piecesMm + kerfMm + offcutMm).toBeCloseTo(lengthMm, 5)
    expect(kerfMm).toBeLessThanOrEqual(pieces.length * own.kerf + 1e-6)
    if (offcutMm > 0) expect(kerfMm).toBeCloseTo(pieces.length * own.kerf, 6)
    expect(sticks.map((row) => row.length)).toContain(lengthMm)
  }
  const short = new Set(cuts.shortPieces.map(({ run }) => run))
  lengths.forEach((lengthMm, run) => {
    const own_ = cuts.sticks.flatMap(({ pieces }) => pieces.filter((piece) => piece.run === run))
    own_.sort((a, b) => a.fromMm - b.fromMm)
    let reachedMm = 0
    for (const piece of own_) {
      expect(piece.fromMm).toBeCloseTo(reachedMm, 5)
      if (!short.has(run)) expect(piece.lengthMm).toBeGreaterThanOrEqual(own.minimumPiece - 1e-6)
      reachedMm = piece.fromMm + piece.lengthMm
    }
    expect(reachedMm).toBeCloseTo(lengthMm, 5)
    expect(cuts.piecesPerRun[run]).toBe(own_.length)
  })
  for (const row of sticks) {
    const used = cuts.sticks.filter(({ lengthMm }) => lengthMm === row.length)
    const fromStock = used.filter((cut) => cut.fromStock).length
    expect(fromStock).toBe(Math.min(used.length, row.onHand))
    if (!row.buyable) expect(used.length).toBeLessThanOrEqual(row.onHand)
  }
  const totals = { sticks: sum(cuts.sticks.map((cut) => cut.lengthMm)), runs: sum(lengths) }
  expect(cuts.wasteMm).toBeCloseTo(totals.sticks - totals.runs, 4)
  expect(cuts.reusableMm).toBeCloseTo(
    sum(cuts.sticks.map(({ offcutMm }) => (offcutMm >= own.minimumPiece - 1e-6 ? offcutMm : 0))),
    6,
  )
  expect(cuts.sticks.length).toBeGreaterThanOrEqual(cuts.sticksLowerBound)
}

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

describe('one rail', () => {
  it('twelve 6-ft sticks make 72 ft, uncut', () => {
    const cuts = plan([72 * FOOT], [stick(6 * FOOT)])
    expect(cuts.sticks).toHaveLength(12)
    expect(cuts.wasteMm).toBeCloseTo(0, 6)
    expect(cuts.sticksLowerBound).toBe(12)
  })

  it('a remainder is cut from a stick and takes one kerf', () => {
    // by hand: 2000 = 1500 + 500; 1500 − 500 − 1 = 999 left
    const cuts = plan([2000], [stick(1500)])
    expect(cuts.sticks.map(({ offcutMm, kerfMm }) => [offcutMm, kerfMm])).toEqual([
      [0, 0],
      [999, 1],
    ])
    expect(cuts.wasteMm).toBe(1000)
    expect(cuts.reusableMm).toBe(999)
  })

  it('a remainder under the minimum shortens the piece before it', () => {
    // by hand: 3050 = 1500 + 1400 + 150
    const cuts = plan([3050], [stick(1500)])
    const pieces = cuts.sticks.flatMap((cut) => cut.pieces).sort((a, b) => a.fromMm - b.fromMm)
    expect(pieces.map(({ lengthMm }) => lengthMm)).toEqual([1500, 1400, 150])
  })

  it('short sticks lend together what one of them cannot', () => {
    // by hand: 620 = 3 × 200 + 20; the three lend 50, 50 and 30
    const cuts = plan([620], [stick(200)])
    const pieces = cuts.sticks.flatMap((cut) => cut.pieces).sort((a, b) => a.fromMm - b.fromMm)
    expect(pieces.map(({ lengthMm }) => lengthMm)).toEqual([170, 150, 150, 150])
  })

  it('a run under the minimum is cut as it is and named', () => {
    const cuts = plan([120], [stick(1500)])
    expect(cuts.shortPieces).toEqual([{ run: 0, lengthMm: 120 }])
  })

  it('a cut whose remainder is thinner than the kerf takes only the remainder', () => {
    const cuts = plan([1499.4], [stick(1500)])
    expect(cuts.sticks[0]).toMatchObject({ offcutMm: 0 })
    expect(cuts.sticks[0]!.kerfMm).toBeCloseTo(0.6, 9)
  })

  it('a thousandth of a millimetre too much is not cut off a second stick', () => {
    expect(plan([3000 + 5e-7], [stick(1500)]).sticks).toHaveLength(2)
  })
})

describe('shared sticks', () => {
  it('two remainders come from one stick when they fit with the kerf between them', () => {
    // by hand: 700 + 799 + 1 kerf = 1500, the last piece ends with the stick
    expect(plan([2200, 2299], [stick(1500)]).sticks).toHaveLength(3)
    expect(plan([2200, 2300], [stick(1500)]).sticks).toHaveLength(4)
  })

  it('the closest open stick is taken', () => {
    // by hand: 1000 and 1200 open two sticks (499 and 299 left); 250 fits the second more closely
    const cuts = plan([1000, 1200, 250], [stick(1500)])
    const shared = cuts.sticks.find(({ pieces }) => pieces.some(({ run }) => run === 2))
    expect(shared?.pieces.map(({ run }) => run)).toEqual([1, 2])
  })
})

describe('several lengths and a shed', () => {
  it('uses what is on hand first, of any length', () => {
    const cuts = plan([3400], [stick(1500, { onHand: 1 }), stick(900, { onHand: 1, buyable: false })])
    // by hand: 1500 and 900 from the shed, 1000 from a bought 1500
    expect(cuts.sticks.map(({ lengthMm, fromStock }) => [lengthMm, fromStock])).toEqual([
      [1500, true],
      [900, true],
      [1500, false],
    ])
  })

  it('lays the length that is cheaper for the whole', () => {
    const long = stick(1800, { price: '20.00' })
    const short = stick(900, { price: '5.00' })
    const cuts = plan([3600], [long, short])
    // by hand: 4 × 5.00 + 3 × 0.90 = 22.70 against 2 × 20.00 + 0.90
    expect(cuts.sticks.map(({ lengthMm }) => lengthMm)).toEqual([900, 900, 900, 900])
  })

  it('without prices buys the least rail', () => {
    const cuts = plan([1000], [stick(1500), stick(1100)])
    expect(cuts.sticks.map(({ lengthMm }) => lengthMm)).toEqual([1100])
  })

  it('makes do with odd sticks when nothing can be bought', () => {
    const shed = [stick(1000, { onHand: 1, buyable: false }), stick(700, { onHand: 2, buyable: false })]
    expect(plan([2000], shed).piecesPerRun).toEqual([3])
    expect(plan([1150, 800], shed).sticks.length).toBeLessThanOrEqual(3)
  })

  it('says what is missing when the shed does not reach', () => {
    const sticks = [stick(1000, { onHand: 2, buyable: false })]
    const result = planCuts([{ lengthMm: 2500 }], sticks, rules, cheaperFor(supplies(sticks), 0))
    expect(result).toEqual({ ok: false, missingMm: 500 })
  })

  it('bounds the number of sticks from below', () => {
    // by hand: 5000 = 2 × 2000 on hand + 1000 of 1500s
    expect(fewestSticks(5000, [stick(1500), stick(2000, { onHand: 2, buyable: false })])).toBe(3)
    expect(fewestSticks(5000, [stick(1500)])).toBe(4)
    expect(fewestSticks(0, [stick(1500)])).toBe(0)
  })
})

it('random plans: every piece accounted for, no stick overfilled, stock first', () => {
  const length = fc.double({ min: 200, max: 3000, noNaN: true })
  const row = fc.record({
    length,
    onHand: fc.nat(4),
    buyable: fc.boolean(),
    price: fc.constantFrom(null, '3.20', '14.50', '9.99'),
    packSize: fc.constantFrom(1, 1, 6),
  })
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 1, max: 20_000, noNaN: true }), { minLength: 1, maxLength: 12 }),
      fc.uniqueArray(row, { minLength: 1, maxLength: 4, selector: (each) => each.length }),
      fc.record({
        kerf: fc.constantFrom(0, 1, 3.2),
        minimumPiece: fc.constantFrom(0, 150, 200),
      }),
      (lengths, sticks, own) => {
        const runs = lengths.map((lengthMm) => ({ lengthMm }))
        const result = planCuts(runs, sticks, own, cheaperFor(supplies(sticks), 0))
        if (result.ok) expectSound(lengths, sticks, own, result.plan)
        else expect(sticks.some(({ buyable }) => buyable)).toBe(false)
      },
    ),
    { numRuns: cases(2000) },
  )
})
