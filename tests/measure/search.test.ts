import fc from 'fast-check'
import { expect, it } from 'vitest'
import { firstIndexWhere } from '../../src/measure/search.ts'

it('finds what looking at each in turn finds, the ends and nothing among it', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -5, max: 5 })), fc.integer({ min: -7, max: 7 }), (values, wanted) => {
      const ascending = values.sort((a, b) => a - b)
      const one = ascending.findIndex((value) => value > wanted)
      expect(firstIndexWhere(ascending.length, (index) => ascending[index]! > wanted)).toBe(
        one < 0 ? ascending.length : one,
      )
    }),
  )
  expect(firstIndexWhere(0, () => true)).toBe(0)
})
