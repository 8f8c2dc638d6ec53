import { describe, expect, it } from 'vitest'
import { planFaults } from '../../src/estimate/faults.ts'
import type { PlanInput, RoadbedInput } from '../../src/estimate/plan.ts'
import { planOf, straight } from './plans.ts'

const faultsOf = (plan: Partial<PlanInput>) =>
  planFaults(planOf([straight(900)], {}, plan)).map(({ path, code }) => `/${path.join('/')} ${code}`)

const tie = { lengthMm: 95, widthMm: 18, heightMm: 10 }
const raised: RoadbedInput = { kind: 'raised', crownWidthMm: 130, depthUnderTieMm: 40, tie }
const trench: RoadbedInput = { kind: 'trench', crownWidthMm: 120, depthUnderTieMm: 60 }

describe('roadbed', () => {
  it.each<[string, RoadbedInput, string[]]>([
    ['raised', raised, []],
    ['a trench up to the bottoms of the ties needs no size of them', trench, []],
    ['a raised bed does', { ...raised, tie: undefined }, ['/roadbed/tie missing']],
    ['so does a trench filled to the tops', { ...trench, filledTo: 'tie-top' }, ['/roadbed/tie missing']],
    ['a crown as wide as the ties', { ...raised, crownWidthMm: 95 }, []],
    ['a crown narrower than they', { ...raised, crownWidthMm: 94.9 }, ['/roadbed/crownWidth contradictory']],
    ['ties as wide as they are apart', { ...raised, tie: { ...tie, widthMm: 45 } }, []],
    ['wider', { ...raised, tie: { ...tie, widthMm: 45.1 } }, ['/roadbed/tie/width contradictory']],
    ['sides of a trench that nearly meet', { ...trench, shoulderSlope: 0.99 }, []],
    ['that meet at the bottom', { ...trench, shoulderSlope: 1 }, ['/roadbed/shoulderSlope contradictory']],
  ])('%s', (_, roadbed, faults) => {
    expect(faultsOf({ roadbed })).toEqual(faults)
  })

  it('holds the ties against the spacing that is given', () => {
    const ties = { perLength: { count: 24, lengthMm: 400 } }
    expect(faultsOf({ roadbed: raised, supplies: { ties } })).toEqual(['/roadbed/tie/width contradictory'])
    expect(faultsOf({ roadbed: raised, supplies: { ties: { spacingMm: 18 } } })).toEqual([])
  })
})

it('ties no closer than a thousandth of a millimetre', () => {
  const perLength = (count: number) => ({ supplies: { ties: { perLength: { count, lengthMm: 1 } } } })
  expect(faultsOf(perLength(1000))).toEqual([])
  expect(faultsOf(perLength(1001))).toEqual(['/supplies/ties/perLength/count out-of-range'])
})

it('a drop leaves something of the voltage, that assumed among them', () => {
  expect(faultsOf({ power: { currentA: 2, maximumDropV: 17.9 } })).toEqual([])
  expect(faultsOf({ power: { currentA: 2, maximumDropV: 18 } })).toEqual(['/power/maximumDropV contradictory'])
  expect(faultsOf({ power: { currentA: 2, maximumDropV: 18, supplyVoltageV: 24 } })).toEqual([])
  expect(faultsOf({ power: 'none' })).toEqual([])
})
