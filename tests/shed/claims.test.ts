import { describe, expect, it } from 'vitest'
import { neededStock } from '../../src/projects/needed-stock.ts'
import { Latest, withinReach } from '../../src/shed/claims.ts'
import { estimateFromStock } from '../../src/shed/from-stock.ts'
import { NOTHING, type Stock } from '../../src/shed/stock.ts'
import { planOf, straight } from '../estimate/plans.ts'

const stick = (lengthMm: number, material = 'brass', count = 3) => ({ section: '250', material, lengthMm, count })
const stock = (...sticks: Stock['sticks'][number][]): Stock => ({ ...NOTHING, sticks })
const plan = planOf([straight(3000)])

describe('what a plan can reach of the shed', () => {
  it('is its own rail, and what fits any', () => {
    const all = {
      ...stock(stick(900), stick(900, 'steel')),
      ties: 40,
      tieStrips: [{ ties: 8, count: 2 }],
      fasteners: 9,
    }
    expect(withinReach(plan, all)).toEqual({ ...stock(stick(900)), ties: 40, fasteners: 9 })
  })

  it('leaves what it takes unchanged', () => {
    const all = { ...stock(stick(1500), stick(900), stick(900, 'steel')), ties: 40, fasteners: 9 }
    const whole = estimateFromStock(plan, all)
    const reached = estimateFromStock(plan, withinReach(plan, all))
    expect(whole.ok && whole.taken).toEqual(reached.ok && reached.taken)
  })
})

describe('claims', () => {
  it('are the same again, and change with what can be reached', () => {
    const sent = plan as unknown as Parameters<typeof neededStock>[0]
    const few = neededStock(sent, stock(stick(1500, 'brass', 1)))
    expect(few.sticks).toEqual([stick(1500, 'brass', 1)])
    // By hand: 3 m on two rails are four sticks of 1.5 m.
    expect(neededStock(sent, stock(stick(1500, 'brass', 9))).sticks).toEqual([stick(1500, 'brass', 4)])
    expect(neededStock(sent, stock(stick(1500, 'brass', 1), stick(900, 'steel')))).toBe(few)
  })

  it('keeps only the latest', () => {
    const latest = new Latest<number>(2)
    let worked = 0
    const ask = (name: string) => latest.of(name, () => ++worked)
    expect([ask('a'), ask('b'), ask('a'), ask('c'), ask('a'), ask('b')]).toEqual([1, 2, 1, 3, 1, 4])
  })
})
