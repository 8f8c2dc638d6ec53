import { readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { EstimateSchema } from '../../src/api/schemas/estimate.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import { ARC, appWithoutStore, asking, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/estimates', { method: 'POST', json })

/** The estimate of a plan; it has exactly the documented fields. */
async function estimateOf(plan: unknown): Promise<Estimate> {
  const answer = await post(plan)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(EstimateSchema.parse(body)).toEqual(body)
  return body as Estimate
}

const FOOT = 304.8
const deg = (angle: number) => (angle * Math.PI) / 180
/** Head of code 250 (NMRA RP-15.1: 0.112 in). */
const HEAD_250 = 0.112 * 25.4

describe('the example plans', () => {
  test('are all looked at here', () => {
    const names = readdirSync(new URL('../../openapi/examples', import.meta.url)).toSorted()
    const curves = [
      'bend-by-hand.json',
      'bend-in-rollers.json',
      'calibration-by-radii.json',
      'check-at-the-bench.json',
      'check-laid-curve.json',
      'curves-to-peg-out.json',
    ]
    expect(names).toEqual([
      ...curves,
      'footbridge-line.json',
      'hillside-with-grade.json',
      'loop-in-the-sun.json',
      'quarter-loop.json',
      'small-oval.json',
      'three-faults.json',
    ])
  })

  test('a quarter loop: geometry, ties, joints, ordinates and the bill', async () => {
    const estimate = await estimateOf(example('quarter-loop'))
    const track = estimate.tracks[0]!
    // By hand: two tangents of 6 ft, a quarter of a circle of 9 ft radius.
    const lengthMm = 12 * FOOT + (Math.PI / 2) * 9 * FOOT
    const halfDifferenceMm = ((45 + HEAD_250) / 2) * (Math.PI / 2)
    expect(track.lengthMm).toBeCloseTo(lengthMm, 9)
    expect(track.turnedDeg).toBeCloseTo(90, 12)
    expect(track.rails.left.lengthMm).toBeCloseTo(lengthMm - halfDifferenceMm, 9)
    expect(track.rails.right.lengthMm).toBeCloseTo(lengthMm + halfDifferenceMm, 9)
    expect(track.end.xMm).toBeCloseTo(15 * FOOT, 9)
    expect(track.end.yMm).toBeCloseTo(15 * FOOT, 9)
    expect(track.closure).toBeNull()

    // By hand: 7966.6 mm at 45 mm; rails of 7929.0 and 8004.2 mm are four sticks of 6 ft and a piece each, and both
    // pieces (613.8 and 689.0 mm) come out of a ninth stick.
    expect(track.ties).toBe(178)
    expect(track.joints).toBe(8)
    expect(estimate.cutting.sticksUsed).toBe(9)
    const bill = estimate.bill.lines.map(({ item, required, onHand, toBuy, packs, amount }) => [
      item,
      required,
      onHand,
      toBuy,
      packs,
      amount,
    ])
    expect(bill).toEqual([
      ['rail-stick', 9, 4, 5, 5, '72.50'],
      ['joiner', 8, 6, 2, 1, '9.00'],
      ['tie', 178, 0, 178, 2, '42.00'],
      ['fastener', 712, 0, 712, 2, '24.00'],
    ])
    expect(estimate.bill).toMatchObject({ currency: 'USD', total: '147.50', unpricedLines: 0 })

    // Closed form m = r − √(r² − c²/4) on the concave side of the head, r = R ± gauge/2 (inner less the head too).
    const mid = (r: number, c: number) => r - Math.sqrt(r * r - (c * c) / 4)
    const faces = { outer: 9 * FOOT + 22.5, inner: 9 * FOOT - 22.5 - HEAD_250 }
    for (const bend of estimate.bends) {
      expect(bend.measuredRadiusMm).toBeCloseTo(faces[bend.rail], 9)
      expect(bend.ordinates.map(({ midMm }) => midMm)).toEqual(
        [300, 500].map((chord) => expect.closeTo(mid(faces[bend.rail], chord), 9)),
      )
    }
    expect(estimate.bends.map(({ rail, side }) => [rail, side])).toEqual([
      ['outer', 'right'],
      ['inner', 'left'],
    ])
    expect(estimate.findings).toEqual([])
  })

  test('a small oval: it closes within its gap, and its rails differ by a full turn', async () => {
    const estimate = await estimateOf(example('small-oval'))
    const track = estimate.tracks[0]!
    // By hand: tangents 2 × 3 m, easements 4 × 0.6 m turning 0.6/(2·1.5) rad each, arcs 2 × 157.08° of 1.5 m.
    const turnedRad = 2 * deg(157.08) + 4 * 0.2
    expect(track.lengthMm).toBeCloseTo(6000 + 2400 + 2 * deg(157.08) * 1500, 8)
    expect(track.turnedDeg).toBeCloseTo((-turnedRad * 180) / Math.PI, 9)
    expect(track.closure!.gapMm).toBeLessThan(2)
    expect(track.closure!.headingDeg).toBeCloseTo(360 - (turnedRad * 180) / Math.PI, 9)
    expect(estimate.findings.filter(({ rule }) => rule === 'closure')).toEqual([])
    const sections = JSON.parse((await ask('/v1/catalogue/sections')).text) as {
      items: { id: string; headWidthMm: number }[]
    }
    const { headWidthMm } = sections.items.find(({ id }) => id === '332')!
    expect(track.rails.left.lengthMm - track.rails.right.lengthMm).toBeCloseTo((45 + headWidthMm) * turnedRad, 8)
    // By hand: ⌈16624.7/45⌉ ties; one joint a piece, as the closed rails end where they began.
    expect(track.ties).toBe(370)
    const pieces = estimate.cutting.sticks.flatMap((stick) => stick.pieces)
    expect(track.joints).toBe(pieces.length)
    expect(estimate.bill.currency).toBe('EUR')
  })

  test('a hillside: the grade lengthens the rails and is found too steep, the reverse curve too close', async () => {
    const estimate = await estimateOf(example('hillside-with-grade'))
    const track = estimate.tracks[0]!
    // By hand: 4 m + 40° of 8 ft + 12 in + 1.5 m + 1 m.
    const lengthMm = 4000 + deg(40) * 8 * FOOT + FOOT + 1500 + 1000
    expect(track.lengthMm).toBeCloseTo(lengthMm, 9)
    // By hand: 4 in on 4 m is 2.54 %; what one rail gains on the turn under it the other loses.
    const { left, right } = track.rails
    expect(left.lengthMm + right.lengthMm).toBeCloseTo(2 * (lengthMm + 4000 * (Math.hypot(1, 0.0254) - 1)), 8)
    expect(track.grades.map(({ gradePct }) => gradePct)).toEqual([0, expect.closeTo(2.54, 12), 0])
    expect(track.end.elevationMm).toBeCloseTo(8 * 25.4, 9)
    // By hand: ⌊8507.1/45⌋ + 1, less the tie shared with the track it joins.
    expect(track.ties).toBe(189)
    const found = (rule: string) => estimate.findings.find((finding) => finding.rule === rule)
    expect(found('maximum-grade')).toMatchObject({ severity: 'warn', measured: expect.closeTo(2.54, 9), limit: 2 })
    expect(found('reverse-curve')).toMatchObject({
      severity: 'warn',
      measured: expect.closeTo(FOOT, 9),
      limit: expect.closeTo(711.2, 9),
    })
    expect(found('minimum-radius')).toBeUndefined()
    expect(track.elements[2]!.label).toBe('by the gate')
  })

  test('a line over a footbridge: joints staggered, none on the bridge or the path, and no cut plan is cheaper', async () => {
    const estimate = await estimateOf(example('footbridge-line'))
    const { cutting, joints, bill } = estimate
    // By hand: straights of 9, 6 and 8 ft, 60° of 9 ft radius, 45° of 10 ft.
    const lengthMm = (23 + 3 * Math.PI + 2.5 * Math.PI) * FOOT
    expect(estimate.tracks[0]!.lengthMm).toBeCloseTo(lengthMm, 9)
    for (const at of [0, 19, 23, 38])
      expect(joints.filter(({ stationMm }) => Math.abs(stationMm - at * FOOT) < 1e-6)).toHaveLength(2)
    const joiners = joints.filter(({ kind }) => kind === 'joiner')
    for (const { stationMm, rail } of joiners) {
      expect(stationMm <= 28 * FOOT + 1e-3 || stationMm >= 31 * FOOT - 1e-3).toBe(true)
      expect(stationMm <= 19 * FOOT || stationMm >= 23 * FOOT).toBe(true)
      for (const other of joiners)
        if (other.rail !== rail) expect(Math.abs(other.stationMm - stationMm)).toBeGreaterThanOrEqual(1.5 * FOOT - 1e-3)
    }
    expect(estimate.findings).toEqual([])

    // By hand: both rails are 80.56 ft; beyond three sticks of 5 ft on hand that is 65.56 ft, for which eleven sticks of 6 ft
    // (66 ft at 2.82 a foot) cost least. On 6-ft sticks either rail has at least 3 + 2 joints between its breaks, so with
    // the ends of the bridge 14 joiners, four of them on hand: two packs of 6.
    const leastCents = 11 * 1690 + 2 * 540
    expect(cutting.cost).toBe((leastCents / 100).toFixed(2))
    expect(cutting.costLowerBound).toBe(cutting.cost)
    expect(cutting.provenOptimal).toBe(true)
    const amount = (item: string) => Number(bill.lines.filter((line) => line.item === item)[0]!.amount)
    expect(bill.lines.find(({ item, toBuy }) => item === 'rail-stick' && toBuy > 0)).toMatchObject({ toBuy: 11 })
    expect(amount('joiner')).toBe(10.8)
    expect(amount('insulated-joiner')).toBe(3.1)
  })

  test('three faults: three pointers', async () => {
    const answer = await post(example('three-faults'))
    expect(answer.status).toBe(422)
    expect(problemIn(answer).detail).toContain('3 things')
    expect(placesIn(answer)).toEqual([
      '/tracks/0/elements/0/length',
      '/tracks/0/elements/1/angle',
      '/tracks/0/elements/2/lenght',
    ])
  })
})

describe('an answer', () => {
  test('is the same to the last byte for the same plan', async () => {
    const plan = example('hillside-with-grade')
    const texts = await Promise.all([post(plan), post(plan), post(plan)]).then((all) => all.map(({ text }) => text))
    expect(new Set(texts).size).toBe(1)
  })

  test('comes with 200 also when nothing can be built as drawn', async () => {
    const plan = planWith({ tracks: [{ ...trackOf(TANGENT, ARC), closed: true }] })
    const estimate = await estimateOf(plan)
    expect(estimate.findings.some(({ rule, severity }) => rule === 'closure' && severity === 'stop')).toBe(true)
  })

  test('echoes names and labels in any script, letter for letter', async () => {
    const name = 'Дальняя ветка 庭 👩🏽‍🔧 e\u0301 é " \\ </script>'
    const estimate = await estimateOf(
      planWith({ title: name, tracks: [{ name, label: name, elements: [{ ...TANGENT, label: name }] }] }),
    )
    expect([
      estimate.title,
      estimate.tracks[0]!.name,
      estimate.tracks[0]!.label,
      estimate.tracks[0]!.elements[0]!.label,
    ]).toEqual([name, name, name, name])
  })

  test('lists every default that was used', async () => {
    const { assumptions } = await estimateOf(planWith())
    const fields = assumptions.map(({ field }) => field)
    for (const field of [
      '/gauge',
      '/chords',
      '/supplies/kerf',
      '/supplies/currency',
      '/supplies/minimumPiece',
      '/standards/maximumGradePct',
    ])
      expect(fields).toContain(field)
  })

  test('the rail that is on hand does not do: the plan is refused where it says so', async () => {
    const answer = await post(planWith({ supplies: { sticks: [{ length: '5 ft', onHand: 1, buyable: false }] } }))
    expect(answer.status).toBe(422)
    expect(placesIn(answer)).toEqual(['/supplies/sticks'])
  })
})
