import { describe, expect, it } from 'vitest'
import { bestCutPlan } from '../../../src/laying/cutting/best-cut-plan.ts'
import { compareNeatness, neatnessOf } from '../../../src/laying/cutting/neatness.ts'
import type { CuttingStyle } from '../../../src/laying/cutting/problem.ts'

const JOINERS = { packSize: 1, pricePerPack: '0.50', onHand: 0, sparePct: 0, massEachG: null }
const FIVE_FEET = { length: 1524, price: '14.50', packSize: 1, onHand: 0, buyable: true }

function planOf(
  runsMm: readonly number[],
  cutting: CuttingStyle = 'whole-sticks',
  sticks = [FIVE_FEET],
  rules = { kerf: 1, minimumPiece: 150 },
) {
  const runs = runsMm.map((lengthMm) => ({ lengthMm }))
  const best = bestCutPlan(runs, { sticks, joiners: JOINERS }, rules, { otherJoints: 0, effort: 'quick', cutting })
  if (!best.ok) throw new Error(`${best.missingMm} mm missing`)
  return best
}

const piecesMm = ({ plan }: ReturnType<typeof planOf>) =>
  plan.sticks
    .flatMap(({ pieces }) => pieces)
    .sort((a, b) => a.run - b.run || a.fromMm - b.fromMm)
    .map(({ lengthMm }) => Math.round(lengthMm * 10) / 10)

describe('whole sticks, by hand', () => {
  it('5441 mm on each rail: three whole sticks and 869 mm, two sawn ends, two offcuts of 654 mm', () => {
    const best = planOf([5441, 5441])
    expect(piecesMm(best)).toEqual([1524, 1524, 1524, 869, 1524, 1524, 1524, 869])
    const { sawnEnds, offcutsMm } = neatnessOf(best.plan.sticks, 1)
    expect(sawnEnds).toBe(2)
    expect(offcutsMm.slice(0, 2)).toEqual([654, 654])
    expect([best.cost!.cents, best.provenOptimal]).toEqual([8 * 1450 + 6 * 50, true])
  })

  it('even pieces: the same cost, eight pieces of 1360.25 mm', () => {
    const best = planOf([5441, 5441], 'even-pieces')
    for (const mm of piecesMm(best)) expect(mm).toBeCloseTo(1360.25, 0)
    expect(best.cost!.cents).toBe(8 * 1450 + 6 * 50)
  })

  it('a remainder under the minimum shortens the piece before it, and no other', () => {
    // 3 · 1524 + 60: the last is made up to 150 with 90 of the third stick
    const best = planOf([3 * 1524 + 60])
    expect(piecesMm(best)).toEqual([1524, 1524, 1434, 150])
    expect(neatnessOf(best.plan.sticks, 1).sawnEnds).toBe(2)
  })

  it('whole sticks have no sawn end, whatever the order of the lengths', () => {
    const six = { ...FIVE_FEET, length: 1828.8, price: '17.40' }
    const best = planOf([1524 + 1828.8, 2 * 1828.8], 'whole-sticks', [FIVE_FEET, six])
    expect(neatnessOf(best.plan.sticks, 1)).toMatchObject({ sawnEnds: 0 })
  })

  it('of plans with as many sawn ends, the one with the longest single offcut', () => {
    // 1000 and 400 fit one stick, 500 and 900 the other (122 + 122 left); 1000 and 500 leave 22, 400 and 900 leave 222
    const best = planOf([1000, 900, 500, 400])
    expect(neatnessOf(best.plan.sticks, 1)).toMatchObject({ sawnEnds: 6, offcutsMm: [222, 22] })
  })
})

describe('sawn ends', () => {
  const piece = (run: number, lengthMm: number, trimStartMm = 0, trimEndMm = 0) => ({
    run,
    fromMm: 0,
    lengthMm,
    trimStartMm,
    trimEndMm,
  })
  const stick = (pieces: ReturnType<typeof piece>[], offcutMm: number, kerfMm = 0) => ({
    kerfMm,
    offcutMm,
    pieces,
  })
  it.each([
    ['a whole stick', [stick([piece(0, 1000)], 0)], 0],
    ['the only piece of a longer stick', [stick([piece(0, 700)], 299, 1)], 1],
    ['a piece whose offcut is all sawdust', [stick([piece(0, 999.5)], 0, 0.5)], 1],
    ['two pieces of a whole stick', [stick([piece(0, 499), piece(1, 500)], 0, 1)], 2],
    ['two pieces and an offcut', [stick([piece(0, 300), piece(1, 400)], 298, 2)], 3],
    ['a whole stick trimmed at both ends', [stick([piece(0, 900, 50, 50)], 0)], 2],
    ['trimmed where it is sawn anyway', [stick([piece(0, 700, 0, 50)], 249, 1)], 1],
  ])('%s', (_, sticks, sawnEnds) => {
    expect(neatnessOf(sticks, 1).sawnEnds).toBe(sawnEnds)
  })

  it('come before offcuts, and offcuts before the shortest piece', () => {
    const neat = { sawnEnds: 2, offcutsMm: [300, 10], shortestMm: 200 }
    expect(compareNeatness(neat, { sawnEnds: 3, offcutsMm: [310], shortestMm: 900 })).toBeLessThan(0)
    expect(compareNeatness(neat, { ...neat, offcutsMm: [290, 20], shortestMm: 900 })).toBeLessThan(0)
    expect(compareNeatness(neat, { ...neat, shortestMm: 201 })).toBeGreaterThan(0)
    expect(compareNeatness(neat, { ...neat })).toBe(0)
  })
})
