import { expect, it } from 'vitest'
import { sum } from '../../src/measure/sum.ts'

it('adds up, nothing to nothing (by hand)', () => {
  expect([sum([]), sum([5]), sum([1.5, -4, 2])]).toEqual([0, 5, -0.5])
})
