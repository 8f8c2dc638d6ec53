import { expect, test } from 'vitest'
import { lettersOf } from '../../src/measure/letters.ts'

test('letters go on after Z, as spreadsheets name columns', () => {
  expect([0, 25, 26, 27, 51, 52, 701, 702].map(lettersOf)).toEqual(['A', 'Z', 'AA', 'AB', 'AZ', 'BA', 'ZZ', 'AAA'])
})
