import { describe, expect, it } from 'vitest'
import { bendingOf } from '../../../src/estimate/bending.ts'
import { cuttingAnswer } from '../../../src/estimate/cutting/cutting-answer.ts'
import { layOut } from '../../../src/estimate/cutting/lay-out.ts'
import { preparePlan } from '../../../src/estimate/plan.ts'
import { layTracks } from '../../../src/estimate/stages/lay-tracks.ts'
import { workFor } from '../../../src/laying/cutting/effort.ts'
import type { PlanInput } from '../../../src/plan/rows/plan.ts'
import type { TrackInput } from '../../../src/plan/rows/track.ts'
import { arc, asRead, planOf, straight } from '../../estimate/plans.ts'

/* The largest plans that the limits allow come out whole, keep their rules, and take no more than the steps of a plan. */

const SIX_AND_THREE_FEET = [
  { length: '6 ft', price: '10.00' },
  { length: '3 ft', price: '5.50' },
] as const

const TWENTY_LENGTHS = Array.from({ length: 20 }, (_, n) => ({
  length: 1000 + 97 * n,
  price: (3 + 0.31 * n).toFixed(2),
}))

const breaks = (count: number, everyMm: number, uneven = 0) =>
  Array.from({ length: count }, (_, n) => ({
    at: everyMm * (n + 1) + (uneven > 0 ? (n * 7919) % uneven : 0),
    kind: 'turnout' as const,
  }))

const line = (lengthMm: number, plan: object, track: Partial<TrackInput> = {}): PlanInput =>
  asRead(planOf([straight(lengthMm)], track, plan as Partial<PlanInput>))

function laidOut(plan: PlanInput) {
  const prepared = preparePlan(plan).plan
  const bending = bendingOf(prepared)
  if (!bending.ok) throw new Error('not bent')
  const { site } = layTracks(prepared, bending.ofPlan)
  const work = workFor(plan.effort ?? 'quick')
  const laid = layOut(site, { kinds: [], coverable: [], left: [] }, [], plan.effort ?? 'quick', work)
  if (!laid.ok) throw new Error('not laid')
  const { cuts, divided, joints } = laid.laidOut
  const cutting = cuttingAnswer(cuts, site.laid, divided, plan.supplies?.currency ?? 'USD')
  for (const { lengthMm, pieces, kerfMm, offcutMm } of cutting.sticks) {
    const cutMm = pieces.reduce((sum, piece) => sum + piece.sawLengthMm, kerfMm + offcutMm)
    expect(Math.abs(cutMm - lengthMm)).toBeLessThan(1e-5)
  }
  for (const side of ['left', 'right'] as const) {
    const pieces = cutting.sticks.flatMap((stick) => stick.pieces.filter(({ rail }) => rail === side))
    const railMm = site.laid.reduce((sum, { rails }) => sum + rails[side].lengthMm, 0)
    expect(pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)).toBeCloseTo(railMm, 3)
  }
  expect(work.left).toBeGreaterThan(0)
  return { cutting, joiners: joints.filter(({ kind }) => kind === 'joiner') }
}

type Joiners = ReturnType<typeof laidOut>['joiners']

function nearestPairMm(joiners: Joiners): number {
  let least = Number.POSITIVE_INFINITY
  const inOrder = joiners.toSorted((a, b) => a.stationMm - b.stationMm)
  for (const [n, joint] of inOrder.entries())
    for (const other of inOrder.slice(Math.max(0, n - 4), n))
      if (other.rail !== joint.rail) least = Math.min(least, joint.stationMm - other.stationMm)
  return least
}

describe('joints of the two rails kept apart', () => {
  it.each([
    ['1 km', 1e6, 'quick'],
    ['3 km', 3e6, 'quick'],
    ['3 km, thorough', 3e6, 'thorough'],
  ] as const)('%s of straight', (_, lengthMm, effort) => {
    const { cutting, joiners } = laidOut(
      line(lengthMm, { supplies: { sticks: SIX_AND_THREE_FEET }, joints: { stagger: 500 }, effort }),
    )
    expect(nearestPairMm(joiners)).toBeGreaterThanOrEqual(500 - 1e-3)
    // By hand: the rail of both sides in whole sticks of 6 ft at 10.00 is the least that anything costs; a dozen more is under 1.1 %.
    const least = 10 * Math.floor((2 * lengthMm) / 1828.8)
    expect(Number(cutting.cost)).toBeGreaterThanOrEqual(least)
    expect(Number(cutting.cost)).toBeLessThanOrEqual(least + 120)
  })

  it.each([
    ['320 breaks', 320, 0],
    ['999 breaks', 999, 0],
    ['999 uneven breaks', 999, 997],
  ])('%s', (_, count, uneven) => {
    const plan = { supplies: { sticks: SIX_AND_THREE_FEET }, joints: { stagger: 300 } }
    const { cutting, joiners } = laidOut(line(2000 * (count + 1), plan, { breaks: breaks(count, 2000, uneven) }))
    expect(nearestPairMm(joiners)).toBeGreaterThanOrEqual(300 - 1e-3)
    expect(Number(cutting.cost)).toBeLessThanOrEqual(1.01 * Number(cutting.costLowerBound))
  })

  it('that cannot be: the rule is relaxed', () => {
    const sticks = [{ length: 1000, price: '3.00' }]
    expect(laidOut(line(9e6, { supplies: { sticks }, joints: { stagger: 2000 } })).cutting.sticksUsed).toBeGreaterThan(
      17_999,
    )
  })

  it('20 lengths of sticks', () => {
    const { cutting, joiners } = laidOut(
      line(9.9e6, { supplies: { sticks: TWENTY_LENGTHS }, joints: { stagger: 400 } }),
    )
    expect(nearestPairMm(joiners)).toBeGreaterThanOrEqual(400 - 1e-3)
    // By hand: the cheapest rail is 3.00 a metre, 19.8 km of it 59,400.00.
    expect(Number(cutting.cost)).toBeLessThanOrEqual(1.001 * 59_400)
  })
})

it('9 km with joints midway between ties at 997 mm, from sticks of 1 m', () => {
  const supplies = { sticks: [{ length: 1000, price: '3.00' }], ties: { spacing: 997 } }
  const { cutting, joiners } = laidOut(line(9e6, { supplies, joints: { betweenTies: true } }))
  for (const { stationMm } of joiners) expect(Math.abs((stationMm / 997 + 0.5) % 1)).toBeLessThan(1e-6)
  // By hand: joints at 498.5, 1495.5, …: on each rail 9,027 ties fit, so at least 9,027 pieces of up to 997 mm.
  expect(cutting.sticksUsed).toBeGreaterThanOrEqual(2 * 9_027)
  expect(cutting.sticksUsed).toBeLessThanOrEqual(2 * 9_028)
})

it('both rails opposite each other, with stretches without joints', () => {
  const keepOut = Array.from({ length: 100 }, (_, n) => ({ from: 90_000 * n + 100, to: 90_000 * n + 850 }))
  const sticks = [
    { length: 1000, price: '3.00' },
    { length: 1500, price: '4.00' },
  ]
  const plan = line(9e6, { supplies: { sticks }, joints: { arrangement: 'square', betweenTies: true } }, { keepOut })
  const { cutting } = laidOut(plan)
  expect(Number(cutting.cost)).toBeLessThanOrEqual(1.03 * Number(cutting.costLowerBound))
})

describe('joints anywhere', () => {
  it('20 lengths of sticks for 9.9 km', () => {
    const { cutting } = laidOut(line(9.9e6, { supplies: { sticks: TWENTY_LENGTHS } }))
    expect(Number(cutting.cost)).toBeLessThanOrEqual(1.001 * 59_400)
  })

  it('999 uneven breaks', () => {
    const { cutting } = laidOut(
      line(2e6, { supplies: { sticks: SIX_AND_THREE_FEET } }, { breaks: breaks(999, 2000, 997) }),
    )
    expect(Number(cutting.cost)).toBeLessThanOrEqual(1.01 * Number(cutting.costLowerBound))
  })

  it('9.8 km of usual sticks', () => {
    // By hand: 2 × ⌈9,800,000 ÷ 1524⌉ less the half sticks that both rails share: ⌈19,600,000 ÷ 1524⌉ = 12,861.
    expect(laidOut(line(9.8e6, {})).cutting.sticksUsed).toBe(12_861)
  })
})

it('1,250 curves with trimmed ends, joints kept apart', () => {
  const elements = Array.from({ length: 2_500 }, (_, n) =>
    n % 2 ? arc(2000 + 10 * (n % 50), 30, n % 4 > 1 ? 'left' : 'right') : straight(800 + (n % 97)),
  )
  const plan = planOf(elements, {}, {
    bender: { span: 120, outerRollerRadius: 12.7, bearsOn: 'foot', mode: 'rolled', ends: 'trim' },
    supplies: { sticks: SIX_AND_THREE_FEET },
    joints: { stagger: 300 },
  } as unknown as Partial<PlanInput>)
  const { joiners } = laidOut(asRead(plan))
  expect(nearestPairMm(joiners)).toBeGreaterThanOrEqual(300 - 1e-3)
})
