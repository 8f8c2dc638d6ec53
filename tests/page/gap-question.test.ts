import { describe, expect, test } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { gapAtMm, railTemperatureC } from '../../src/page/sheets/garden/gap-question.ts'
import { jointTables } from '../../src/page/sheets/garden/joint-tables.ts'
import { contextOf } from './all-sheets.ts'
import { textOf } from './markup.ts'
import { worked } from './worked.ts'

const plan = (laying: number) => ({
  rail: { section: '250', material: 'aluminium' },
  tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 6000 }] }],
  supplies: { sticks: [{ length: 2000 }] },
  climate: { laying, coldest: -10, hottest: 30, sunAllowance: 20 },
})

describe('the gap at a temperature', () => {
  const { estimate: answer } = worked(plan(15))
  const { expansion, joints } = answer
  const joint = joints[0]!

  test('is the answered one at laying and when coldest, and none when hottest', () => {
    expect(gapAtMm(joint, expansion!, 15)).toBeCloseTo(joint.gapMm!, 12)
    expect(gapAtMm(joint, expansion!, -10)).toBeCloseTo(joint.gapColdestMm!, 12)
    expect(gapAtMm(joint, expansion!, 50)).toBeCloseTo(0, 9)
    expect(gapAtMm(joint, expansion!, 80)).toBe(0)
  })

  test('changes by α·L for each degree, L the length of a piece', () => {
    // By hand: two pieces of nearly 2000 mm of aluminium, half of each: 2000 mm · α for each K.
    const perK = gapAtMm(joint, expansion!, 20)! - gapAtMm(joint, expansion!, 21)!
    expect(perK / (expansion!.expansionPerK! * 2000)).toBeCloseTo(1, 2)
  })

  test('is the one of a plan that is laid at that temperature, but for the length of its pieces', () => {
    const read = readPlan(plan(35))
    const there = read.ok ? estimate(read.plan) : read
    if (!there.ok) throw new Error('cannot be worked out')
    expect(gapAtMm(joint, expansion!, 35)).toBeCloseTo(there.estimate.joints[0]!.gapMm!, 2)
  })

  test('of rail laid at the coldest goes by the hottest, and is not known without the metal’s expansion', () => {
    const { expansion: cold, joints: ofCold } = worked(plan(-10)).estimate
    expect(gapAtMm(ofCold[0]!, cold!, 20)).toBeCloseTo(ofCold[0]!.gapMm! / 2, 9)
    expect(gapAtMm({ gapMm: null, gapColdestMm: null, gapHottestMm: null }, cold!, 20)).toBeNull()
    const flat = { layingC: 5, coldestC: 5, hottestC: 5 }
    expect(gapAtMm({ gapMm: 1, gapColdestMm: 1, gapHottestMm: 1 }, flat, 40)).toBe(1)
  })
})

describe('what is typed', () => {
  const { expansion } = worked(plan(15)).estimate
  test.each([
    [null, 15],
    ['', 15],
    ['25', 25],
    ['-5 C', -5],
    ['77 F', 25],
    ['warm', null],
  ] as const)('%j is %j °C', (typed, celsius) => expect(railTemperatureC(expansion!, typed, 'both')).toBe(celsius))

  test('is in the heading of the table, or said to be no temperature', () => {
    const at = (railAt: string) => textOf(jointTables(contextOf(worked(plan(15)), 'metric', railAt)).toString())
    expect(at('77 F')).toContain('Gap at 25 °C')
    expect(at('<warm>')).toContain('“<warm>” is not a temperature.')
    expect(at('<warm>')).toContain('Gap at 15 °C')
  })
})
