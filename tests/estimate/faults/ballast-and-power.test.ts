import { describe, expect, it } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import type { RoadbedInput } from '../../../src/plan/rows/ballast-power-extras.ts'
import type { PlanInput } from '../../../src/plan/rows/plan.ts'
import { planOf, straight } from '../plans.ts'

const faultsOf = (plan: Partial<PlanInput>) =>
  planFaults(planOf([straight(900)], {}, plan)).map(({ path, code }) => `/${path.join('/')} ${code}`)

const tie = { length: 95, width: 18, height: 10 }
const raised: RoadbedInput = { kind: 'raised', crownWidth: 130, depthUnderTie: 40, tie }
const trench: RoadbedInput = { kind: 'trench', crownWidth: 120, depthUnderTie: 60 }

describe('roadbed', () => {
  it.each<[string, RoadbedInput, string[]]>([
    ['raised', raised, []],
    ['a trench up to the bottoms of the ties needs no size of them', trench, []],
    ['a raised bed does', { ...raised, tie: undefined }, ['/roadbed/tie missing']],
    ['so does a trench filled to the tops', { ...trench, filledTo: 'tie-top' }, ['/roadbed/tie missing']],
    ['a crown as wide as the ties', { ...raised, crownWidth: 95 }, []],
    ['a crown narrower than they', { ...raised, crownWidth: 94.9 }, ['/roadbed/crownWidth contradictory']],
    ['ties as wide as they are apart', { ...raised, tie: { ...tie, width: 45 } }, []],
    ['wider', { ...raised, tie: { ...tie, width: 45.1 } }, ['/roadbed/tie/width contradictory']],
    ['sides of a trench that nearly meet', { ...trench, shoulderSlope: 0.99 }, []],
    ['that meet at the bottom', { ...trench, shoulderSlope: 1 }, ['/roadbed/shoulderSlope contradictory']],
  ])('%s', (_, roadbed, faults) => {
    expect(faultsOf({ roadbed })).toEqual(faults)
  })

  it('holds the ties against the spacing that is given', () => {
    const ties = { perLength: { count: 24, length: 400 } }
    expect(faultsOf({ roadbed: raised, supplies: { ties } })).toEqual(['/roadbed/tie/width contradictory'])
    expect(faultsOf({ roadbed: raised, supplies: { ties: { spacing: 18 } } })).toEqual([])
  })
})

it('ties no closer than a thousandth of a millimetre', () => {
  const perLength = (count: number) => ({ supplies: { ties: { perLength: { count, length: 1 } } } })
  expect(faultsOf(perLength(1000))).toEqual([])
  expect(faultsOf(perLength(1001))).toEqual(['/supplies/ties/perLength/count out-of-range'])
})

it('a drop leaves something of the voltage, that assumed among them', () => {
  expect(faultsOf({ power: { currentA: 2, maximumDropV: 17.9 } })).toEqual([])
  expect(faultsOf({ power: { currentA: 2, maximumDropV: 18 } })).toEqual(['/power/maximumDropV contradictory'])
  expect(faultsOf({ power: { currentA: 2, maximumDropV: 18, supplyVoltageV: 24 } })).toEqual([])
  expect(faultsOf({ power: 'none' })).toEqual([])
})
