import { expect, it } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import { arc, easement, planOf, straight } from '../plans.ts'

it('a sound plan has none', () => {
  expect(planFaults(planOf([straight(500), easement(300), arc(2000, 400)]))).toEqual([])
})

it('looks at what could be read and passes over the rest', () => {
  const faults = planFaults({
    tracks: [
      null,
      { elements: [null, easement(1), null, arc(1, 9), easement(1)] },
      { name: 'a', elements: [] },
      { name: 'a', elements: [], gradeLine: [null] },
    ],
    rail: { section: 'no such', material: 'no such', temper: 'no such' },
    supplies: { sticks: [null, { length: 5 }, { length: 5 }] },
  })
  expect(faults.map(({ path }) => path.join('/'))).toEqual(['tracks/3/name', 'supplies/sticks/2/length'])
})
