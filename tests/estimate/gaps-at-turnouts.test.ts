import { describe, expect, test } from 'vitest'
import { spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

/** Rail is laid at 20 °C and gets up to 60 °C in the sun. */
const CLIMATE = { laying: 20, coldest: -10, hottest: 40, sunAllowance: 20 }
const RISE_K = 40

/** Gaps and pieces of one rail, and what of it turnouts take: all of it together. */
function alongRail(plan: object, track: string, rail: 'left' | 'right') {
  const { cutting, joints, expansion, tracks } = worked(plan)
  const pieces = cutting.sticks
    .flatMap(({ pieces }) => pieces)
    .filter((piece) => piece.track === track && piece.rail === rail && !piece.turnout)
  const gaps = joints.filter((joint) => joint.track === track && joint.rail === rail)
  return {
    /** How much rail grows until the gaps are closed, mm per mm. */
    growth: RISE_K * expansion!.expansionPerK!,
    railMm: tracks.find(({ name }) => name === track)!.rails[rail].lengthMm,
    gaps: gaps.map(({ gapMm }) => gapMm!),
    pieces: pieces.toSorted((a, b) => a.fromMm - b.fromMm).map(({ lengthMm }) => lengthMm),
    sumMm: [...pieces.map(({ lengthMm }) => lengthMm), ...gaps.map(({ gapMm }) => gapMm!)].reduce((a, b) => a + b, 0),
  }
}

/** A No. 6 up to where its legs are two gauges apart: 540 mm to the frog, and 45/(2·tan(F/2)) + … = 806.25 mm in all. */
const TURNOUT_MM = 806.25

describe.each([
  ['bought', {}],
  ['built by hand', { buyable: false, onHand: 0 }],
])('beside a turnout that is %s', (_, type) => {
  const plan = { ...spurPlan(type), climate: CLIMATE }

  test('pieces leave the whole gap, as it is not cut', () => {
    for (const rail of ['left', 'right'] as const) {
      const { sumMm, gaps, pieces, growth } = alongRail(plan, 'main', rail)
      expect(sumMm).toBeCloseTo(3000, 6)
      // By hand: half of the turnout's growth and half of that of the piece, which takes up 1000 mm with the gap.
      const pieceMm = (1000 - (growth * TURNOUT_MM) / 2) / (1 + growth / 2)
      expect(pieces[0]).toBeCloseTo(pieceMm, 6)
      expect(gaps[0]).toBeCloseTo((growth * (TURNOUT_MM + pieceMm)) / 2, 6)
    }
  })

  test('and a track from its leg leaves what that and its own piece need', () => {
    const { gaps, pieces, growth, sumMm } = alongRail(plan, 'spur', 'left')
    expect(sumMm).toBeCloseTo(1500, 6)
    // The leg: an arc of 3240 mm through F to 44.69 mm aside, then straight to 90 mm.
    const f = 2 * Math.atan(1 / 12)
    const legMm = 3240 * f + (90 - 3240 * (1 - Math.cos(f))) / Math.sin(f)
    expect(gaps[0]).toBeCloseTo((growth * (legMm + pieces[0]!)) / 2, 2)
  })

  test('with an insulated joint, its insulator too', () => {
    const [main, spur] = plan.tracks
    const insulated = { ...main, breaks: [{ at: 1000, kind: 'insulated' }] }
    const { sumMm, pieces } = alongRail({ ...plan, tracks: [insulated, spur] }, 'main', 'left')
    const without = alongRail(plan, 'main', 'left')
    expect(sumMm).toBeCloseTo(3000, 6)
    expect(pieces[0]).toBeLessThan(without.pieces[0]! - 0.4)
  })

  test('in a closed track that ends with it', () => {
    const { elements } = plan.tracks[0]!
    const [, turnout] = elements
    const round = [
      { kind: 'arc', radius: 2000, angle: 180, turn: 'left' },
      { kind: 'tangent', length: TURNOUT_MM },
      { kind: 'arc', radius: 2000, angle: 180, turn: 'left' },
      turnout,
    ]
    const closed = { ...plan, tracks: [{ name: 'round', closed: true, elements: round }] }
    for (const rail of ['left', 'right'] as const) {
      const { sumMm, railMm } = alongRail(closed, 'round', rail)
      expect(sumMm + TURNOUT_MM).toBeCloseTo(railMm, 6)
    }
  })
})
