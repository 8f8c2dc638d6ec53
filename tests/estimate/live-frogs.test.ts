import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { loopPlan, spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

/* Live frogs, throws and long ties on the bill: common practice, no source. */

const BY_HAND = { buyable: false, onHand: 0 }
const HEEL_AND_TOE = { heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }
const power = { currentA: 3, feeder: { awg: 16, length: 2000 } }

const line = ({ bill }: Estimate, item: string) => bill.lines.find((each) => each.item === item)
const joiners = (of: Estimate) => line(of, 'joiner')!.required

describe('a live frog', () => {
  it('of a bought turnout is parted where both legs go on, in place of two plain joiners', () => {
    const live = worked({ ...spurPlan({ frog: 'live' }), power })
    const dead = worked({ ...spurPlan({ frog: 'insulated' }), power })
    expect(line(live, 'insulated-joiner')).toMatchObject({
      required: 2,
      reasons: [{ text: 'at the live frog of W1', track: 'main', quantity: 2 }],
    })
    expect(joiners(live)).toBe(joiners(dead) - 2)
    expect(line(dead, 'insulated-joiner')).toBeUndefined()
    expect(line(dead, 'frog-switch')).toBeUndefined()
  })

  it('is parted only where a leg goes on', () => {
    const plan = spurPlan({ frog: 'live' })
    const alone = worked({ ...plan, power, tracks: [plan.tracks[0]] })
    expect(line(alone, 'insulated-joiner')!.required).toBe(1)
    const ending = { ...plan.tracks[0]!, elements: plan.tracks[0]!.elements.slice(0, 2) }
    const none = worked({ ...plan, power, tracks: [ending] })
    expect(line(none, 'insulated-joiner')).toBeUndefined()
    expect(line(none, 'frog-switch')!.required).toBe(1)
  })

  it('that is built by hand also from its closure rails: four, two of them in place of the joiners at the toes', () => {
    const kind = { ...HEEL_AND_TOE, ...BY_HAND }
    const live = worked({ ...spurPlan({ ...kind, frog: 'live' }), power })
    const open = worked({ ...spurPlan(kind), power })
    expect(line(live, 'insulated-joiner')!.required).toBe(4)
    expect(joiners(live)).toBe(joiners(open) - 4)
    // Without a toe the closure rails are cut for it.
    const cut = worked({ ...spurPlan({ ...BY_HAND, frog: 'live' }), power })
    expect(line(cut, 'insulated-joiner')!.required).toBe(4)
    expect(joiners(cut)).toBe(joiners(worked({ ...spurPlan(BY_HAND), power })) - 2)
  })

  it('has a switch and a single wire of its own', () => {
    const live = worked({ ...spurPlan({ frog: 'live' }), power })
    expect(line(live, 'frog-switch')).toMatchObject({ required: 1, reasons: [{ text: 'for W1', track: 'main' }] })
    expect(line(live, 'feeder-wire')!.reasons).toContainEqual({
      text: 'a single wire of 2.00 m to the live frog of W1',
      track: 'main',
      quantity: 2,
    })
  })

  it('takes nothing where trains take no power from the rails, nor on track that is there already', () => {
    const battery = worked({ ...spurPlan({ frog: 'live' }), power: 'none' })
    for (const item of ['insulated-joiner', 'frog-switch']) expect(line(battery, item)).toBeUndefined()
    const plan = spurPlan({ frog: 'live' })
    const there = worked({ ...plan, power, tracks: [{ ...plan.tracks[0], state: 'existing' }, plan.tracks[1]] })
    expect(line(there, 'frog-switch')).toBeUndefined()
  })

  it('does not take a second insulated joiner where the block ends already', () => {
    const plan = spurPlan({ frog: 'live' })
    const endMm = worked(plan).tracks[0]!.elements[1]!.toMm
    const main = { ...plan.tracks[0], breaks: [{ at: endMm, kind: 'insulated' }] }
    const made = worked({ ...plan, power, tracks: [main, plan.tracks[1]] })
    const { reasons } = line(made, 'insulated-joiner')!
    expect(reasons).toEqual([
      { text: 'at its breaks', track: 'main', quantity: 2 },
      { text: 'at the live frog of W1', track: 'main', quantity: 1 },
    ])
  })

  it('is the same whichever way the tracks run', () => {
    const made = worked({
      ...loopPlan(),
      turnoutTypes: loopPlan().turnoutTypes.map((t) => ({ ...t, frog: 'live' })),
      power,
    })
    expect(line(made, 'insulated-joiner')).toMatchObject({
      required: 4,
      reasons: [{ text: 'at the live frogs of W1, W2', track: 'main', quantity: 4 }],
    })
  })
})

describe('throws', () => {
  it('are on the bill where the plan says how they are sold: one for each turnout of new track', () => {
    const supplies = { throws: { pricePerPack: '8.50', onHand: 1 } }
    const made = worked({ ...loopPlan(), supplies })
    expect(line(made, 'throw')).toMatchObject({ required: 2, onHand: 1, toBuy: 1, amount: '8.50' })
    expect(line(worked(loopPlan()), 'throw')).toBeUndefined()
  })
})

describe('long ties', () => {
  const longTies = [
    { length: 120, pricePerPack: '1.20', packSize: 5, onHand: 2 },
    { length: 100, pricePerPack: '1.00' },
  ]
  const lines = (of: Estimate) => of.bill.lines.filter(({ item }) => item === 'long-tie')

  it('come from the shortest length that is long enough; what is longer than all is without a price', () => {
    const made = worked({ ...spurPlan(BY_HAND), supplies: { longTies } })
    const needed = made.tracks[0]!.elements[1]!.turnout!.ties.map(({ lengthMm }) => lengthMm).filter((mm) => mm > 82.9)
    const of = (from: number, to: number) => needed.filter((mm) => mm > from && mm <= to).length
    expect(lines(made)).toMatchObject([
      { description: 'Long tie of 100 mm', lengthMm: 100, required: of(0, 100), unitPrice: '1.00' },
      { lengthMm: 120, required: of(100, 120), onHand: 2, packSize: 5, unitPrice: '1.20' },
      { lengthMm: null, required: of(120, 1000), unitPrice: null },
    ])
    expect(of(0, 100) * of(100, 120) * of(120, 1000)).toBeGreaterThan(0)
  })

  it('without such lengths are one line', () => {
    expect(lines(worked(spurPlan(BY_HAND)))).toHaveLength(1)
  })
})
