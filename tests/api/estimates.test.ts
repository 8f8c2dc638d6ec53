import { readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import { ESTIMATE } from '../../src/estimate/answer.ts'
import { ARC, appWithoutStore, asking, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/estimates', { method: 'POST', json })

/** The estimate of a plan; it has exactly the documented fields. */
async function estimateOf(plan: unknown): Promise<Estimate> {
  const answer = await post(plan)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(ESTIMATE).parse(body)).toEqual(body)
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
      'connection-to-fit.json',
      'crossover-in-a-curve.json',
      'curves-to-peg-out.json',
    ]
    expect(names).toEqual([
      ...curves,
      'extension-of-a-line.json',
      'footbridge-line.json',
      'garden-survey.json',
      'hillside-with-grade.json',
      'line-with-bed-and-feeders.json',
      'loop-in-the-sun.json',
      'loop-in-three-metals.json',
      'oval-of-ready-made-track.json',
      'passing-loop.json',
      'passing-siding.json',
      'pond-and-terrace.json',
      'quarter-loop.json',
      'siding-to-move.json',
      'six-runs-to-cut.json',
      'small-oval.json',
      'spur-in-rows.csv',
      'spur-in-rows.ods',
      'spur-in-rows.xlsx',
      'three-faults.json',
      'track-through-a-bank.json',
      'yard-of-four-tracks.json',
    ])
  })

  test('a line through a bank and over a hollow is cut, filled and cut', async () => {
    const { earthworks } = (await estimateOf(example('track-through-a-bank'))).tracks[0]!
    const { stretches, formation } = earthworks!
    expect(stretches.map(({ kind }) => kind)).toEqual(['cut', 'fill', 'cut'])
    // By hand: 0.25 in of rail, 12 mm of tie and 50 mm of ballast; at 2.5 m the ground is 180 mm high and the track,
    // on 1.25 %, 131.25 mm.
    expect(formation.depthMm).toBeCloseTo(68.35, 9)
    expect(stretches[0]).toMatchObject({ greatestAtMm: 2500, greatestMm: expect.closeTo(180 - 131.25 + 68.35, 9) })
  })

  test('an extension: what is lifted is on hand, and only the new line is bought for', async () => {
    const { tracks, bill, findings } = await estimateOf(example('extension-of-a-line'))
    // By hand: 15 ft of lifted track are three sticks of 5 ft a rail with two joiners each, and ties at 45 mm: 102.
    // The new line is 10 ft of straights and an eighth of a circle of 10 ft radius, 5442 mm: 121 ties, less one at
    // either end, where it joins.
    expect(tracks.map(({ state, ties }) => [state, ties])).toEqual([
      ['existing', 0],
      ['lifted', 0],
      ['new', 119],
    ])
    const onHand = bill.lines.map(({ item, onHand }) => [item, onHand])
    expect(onHand).toEqual([
      ['rail-stick', 6],
      ['joiner', 4],
      ['transition-joiner', 0],
      ['tie', 102],
      ['fastener', 0],
    ])
    expect(bill.lines[2]).toMatchObject({ required: 2, packs: 1, amount: '7.50' })
    expect(findings.map(({ rule }) => rule)).toEqual(['mixed-metals'])
  })

  test('a passing siding: nothing worse than a note, and both trains fit beside each other', async () => {
    const { standing, findings } = await estimateOf(example('passing-siding'))
    expect(findings.filter(({ severity }) => severity !== 'note')).toEqual([])
    // By hand: the engine is 396 mm over its couplers, a car 516 mm; the trains are 2976 and 1428 mm.
    const [siding] = standing!.filter(({ track }) => track === 'siding')
    expect(siding!.clearMm).toBeGreaterThan(2976 + 1428)
    expect(siding).toMatchObject({ cars: Math.floor(siding!.clearMm / 516), trains: ['goods', 'way freight'] })
    expect(siding!.pairs).toEqual([{ first: 'goods', second: 'way freight' }])
  })

  test('a quarter loop: geometry, ties, joints, ordinates and the bill', async () => {
    const estimate = await estimateOf(example('quarter-loop'))
    const track = estimate.tracks[0]!
    // By hand: two tangents of 6 ft, a quarter of a circle of 9 ft radius.
    const lengthMm = 12 * FOOT + (Math.PI / 2) * 9 * FOOT
    const halfDifferenceMm = ((45 + HEAD_250) / 2) * (Math.PI / 2)
    expect(track.lengthMm).toBeCloseTo(lengthMm, 8)
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
    expect(track.lengthMm).toBeCloseTo(lengthMm, 8)
    // By hand: 4 in on 4 m is 2.54 %, from the first curve on; each rail is √(plan² + rise²) long, and what one gains in
    // plan the other loses.
    const both = (alongMm: number, radiusMm = Number.POSITIVE_INFINITY) =>
      [1, -1].reduce((sum, side) => sum + alongMm * Math.hypot(1 + (side * (45 + HEAD_250)) / 2 / radiusMm, 0.0254), 0)
    const curvesMm = [deg(40) * 8 * FOOT, 1500] as const
    const climbingMm =
      both(curvesMm[0], 8 * FOOT) + both(curvesMm[1], 10 * FOOT) + both(4000 - curvesMm[0] - curvesMm[1])
    const { left, right } = track.rails
    expect(left.lengthMm + right.lengthMm).toBeCloseTo(2 * (lengthMm - 4000) + climbingMm, 7)
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

  test('a line with bed and feeders: ties in strips, ballast, wire, tax, and why of each', async () => {
    const estimate = await estimateOf(example('line-with-bed-and-feeders'))
    const track = estimate.tracks[0]!
    // By hand: 12 m + 60° of 2.5 m + 10 m, a tie each 1050/24 = 43.75 mm; 130 to 255 mm wide, 50 mm high.
    const lengthMm = 22_000 + (Math.PI / 3) * 2500
    expect(track.lengthMm).toBeCloseTo(lengthMm, 8)
    expect([track.ties, track.tieSpacingMm]).toEqual([563, 43.75])
    expect(track.jointTies).toBeGreaterThan(0)
    expect(track.jointTies).toBeLessThanOrEqual(track.joints)
    const ties = track.ties + track.jointTies
    const inPlaceL = (lengthMm * 9625 - ties * 95 * 18 * 10) * 1e-6
    expect(estimate.roadbed).toMatchObject({
      section: { crownWidthMm: 130, baseWidthMm: 255, heightMm: 50, areaMm2: 9625 },
      inPlaceL: expect.closeTo(inPlaceL, 8),
      volumeL: expect.closeTo(inPlaceL / 0.85, 8),
      massKg: expect.closeTo((inPlaceL / 0.85) * 1.6, 8),
      bags: Math.ceil(((inPlaceL / 0.85) * 1.6) / 25),
    })
    // By hand: 1 V at 4 A is 0.25 Ω; wire of 2.5 mm² takes 6 m · 1.7241e-8/2.5e-6 of it, the rails and joints the rest.
    const power = estimate.power!
    expect(power.allowedDropV).toBe(1)
    expect(power.feeder!.resistanceOhm).toBeCloseTo((6 * 1.7241e-8) / 2.5e-6, 12)
    const [block] = power.blocks
    const loopOhm = 2 * power.railOhmPerM * (lengthMm / 1000) + track.joints * 0.004
    expect(block!.loopOhm).toBeCloseTo(loopOhm, 10)
    expect(block!.farEndV).toBeCloseTo(20 - 4 * (power.feeder!.resistanceOhm + loopOhm), 10)
    expect([block!.feeders, power.wireMm]).toEqual([1, 6000])

    const { lines, net, tax, gross } = estimate.bill
    expect(lines.map(({ item, unit }) => `${item} ${unit}`)).toEqual([
      'rail-stick each',
      'joiner each',
      'tie-strip each',
      'fastener each',
      'ballast kg',
      'feeder-wire m',
      'extra each',
      'extra each',
    ])
    expect(lines[2]).toMatchObject({ required: Math.ceil(ties / 12), unitPrice: '3.20' })
    expect(lines[6]).toMatchObject({ required: Math.ceil((1.1 * lengthMm) / 1000) })
    for (const { reasons, spares, required } of lines)
      expect(reasons.reduce((sum, { quantity }) => sum + quantity, spares)).toBeCloseTo(required, 6)
    // By hand: 19 % to the cent, on the sum.
    expect(Number(tax)).toBeCloseTo(Math.round(Number(net) * 19) / 100, 9)
    expect(Number(gross)).toBeCloseTo(Number(net) + Number(tax), 9)
    expect(estimate.cautions.join()).toContain('Current in the rails')
  })

  test('a line over a footbridge: joints staggered, none on the bridge or the path, and no cut plan is cheaper', async () => {
    const estimate = await estimateOf(example('footbridge-line'))
    const { cutting, joints, bill } = estimate
    // By hand: straights of 9, 6 and 8 ft, 60° of 9 ft radius, 45° of 10 ft.
    const lengthMm = (23 + 3 * Math.PI + 2.5 * Math.PI) * FOOT
    expect(estimate.tracks[0]!.lengthMm).toBeCloseTo(lengthMm, 8)
    for (const at of [0, 19, 23, 38])
      expect(joints.filter(({ stationMm }) => Math.abs(stationMm - at * FOOT) < 1e-6)).toHaveLength(2)
    const joiners = joints.filter(({ kind }) => kind === 'joiner')
    for (const { stationMm, rail } of joiners) {
      expect(stationMm <= 28 * FOOT + 1e-3 || stationMm >= 31 * FOOT - 1e-3).toBe(true)
      expect(stationMm <= 19 * FOOT || stationMm >= 23 * FOOT).toBe(true)
      for (const other of joiners)
        if (other.rail !== rail) expect(Math.abs(other.stationMm - stationMm)).toBeGreaterThanOrEqual(1.5 * FOOT - 1e-3)
    }
    expect(estimate.findings).toMatchObject([{ rule: 'not-checked', severity: 'note' }])

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

  test('an oval of ready-made track where that is cheaper and a piece fits, of loose rail elsewhere', async () => {
    const { readyMade, bill, bends, tracks, cutting } = await estimateOf(example('oval-of-ready-made-track'))
    const amounts = bill.lines.map(({ item, toBuy, amount }) => [item, toBuy, amount])
    // By hand. Straights of 11 ft are two pieces of 5 ft and a foot of a third, which serves both: five, two on hand.
    // Half a circle is six pieces of 30°, four on hand. The rest, 120° of 7 ft and 60° of 5 ft radius, has rails of 20.4 and
    // 19.4 ft: seven sticks of 6 ft, in four pieces either. Joints: 12 pieces, the loose rail and the way back are 13 places
    // on two rails, and 2 × 3 in the loose rail: 32 joiners, 22 of them with the eleven pieces.
    // Ties: the loop is 18,515.4 mm, 412 ties of 44.94 mm; the first 278 are before 12,450.9 mm, where the pieces end.
    expect(amounts).toEqual([
      ['rail-stick', 7, '112.00'],
      ['panel', 3, '111.00'],
      ['panel', 2, '49.00'],
      ['joiner', 10, '9.00'],
      ['tie', 412 - 278, '34.50'],
      ['fastener', 4 * (412 - 278), '20.40'],
    ])
    expect(bill.total).toBe('335.90')
    expect([cutting.cost, cutting.costLowerBound]).toEqual(['121.00', '121.00'])
    // Of loose rail alone 121.5 ft, 21 sticks; 22 joiners, 412 ties and 1648 fasteners in packs of 10, 50 and 250.
    expect(readyMade).toMatchObject({ cost: '335.90', looseCost: (336 + 27 + 103.5 + 47.6).toFixed(2) })
    const [cut, ...uncut] = readyMade!.panels.filter(({ offcutMm }) => offcutMm > 1)
    expect(uncut).toEqual([])
    expect(cut!.offcutMm).toBeCloseTo(1524 - 2 * FOOT - 2, 9)
    expect(readyMade!.stretches.map(({ element, pieces }) => [element, pieces.length])).toEqual([
      [0, 3],
      [1, 6],
      [2, 3],
    ])
    expect(readyMade!.loose.map(({ element, reason }) => [element, reason.split(' ').slice(0, 3).join(' ')])).toEqual([
      [3, 'loose rail is'],
      [4, 'no piece has'],
      [5, 'loose rail is'],
    ])
    expect(new Set(bends.filter(({ readyMade: comesBent }) => comesBent).map(({ element }) => element))).toEqual(
      new Set([1]),
    )
    expect(tracks[0]!.closure!.gapMm).toBeLessThan(1e-6)
  })

  test('three faults: three pointers', async () => {
    const answer = await post(example('three-faults'))
    expect(answer.status).toBe(422)
    expect(problemIn(answer).detail).toContain('3 faults')
    expect(placesIn(answer)).toEqual([
      '/tracks/0/elements/0/length',
      '/tracks/0/elements/1/angle',
      '/tracks/0/elements/2/lenght',
    ])
  })
})

describe('what the rails lie on and what runs in them', () => {
  test('said twice over, or not at all, is refused in each place at once, and so is what cannot be', async () => {
    const answer = await post(
      planWith({
        supplies: {
          taxRatePct: 101,
          ties: {
            spacing: 45,
            perLength: { count: 24, length: '39 ft' },
            packSize: 100,
            onHand: 2,
            strip: { ties: 12 },
          },
        },
        roadbed: {
          kind: 'trench',
          crownWidth: 100,
          depthUnderTie: 60,
          shoulderSlope: 2,
          bag: { volumeL: 20, massKg: 25 },
        },
        power: { currentA: 2, maximumDropPct: 5, maximumDropV: 1, feeder: { length: '2 m' } },
        extras: [{ item: ' ', per: 'metre', quantity: -1 }],
        title: 7,
      }),
    )
    expect(answer.status).toBe(422)
    expect(placesIn(answer).toSorted()).toEqual([
      '/extras/0/item',
      '/extras/0/per',
      '/extras/0/quantity',
      '/power/feeder/awg',
      '/power/maximumDropV',
      '/roadbed/bag/volumeL',
      '/supplies/taxRatePct',
      '/supplies/ties/onHand',
      '/supplies/ties/packSize',
      '/supplies/ties/perLength',
      '/title',
    ])
  })

  test('contradictions between readable parts are told beside other faults', async () => {
    const answer = await post(
      planWith({
        title: 7,
        roadbed: { kind: 'raised', crownWidth: 100, depthUnderTie: 60 },
        power: { currentA: 2, maximumDropV: 18 },
      }),
    )
    expect(placesIn(answer).toSorted()).toEqual(['/power/maximumDropV', '/roadbed/tie', '/title'])
  })

  test('power is "none" or an object; another word has the one that is known as a hint', async () => {
    expect((await estimateOf(planWith({ power: 'none' }))).power).toBeNull()
    const answer = await post(planWith({ power: 'nome' }))
    expect(problemIn(answer).errors).toMatchObject([
      { pointer: '/power', code: 'unknown-value', hint: expect.stringContaining('"none"') },
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
