import { expect, it } from 'vitest'
import { RunningSum } from '../../src/track/running-sum.ts'

const summed = (values: readonly number[]) => {
  const sum = new RunningSum()
  return values.map((value) => sum.add(value)).at(-1)
}

it('keeps what is small beside something great that comes and goes (by hand)', () => {
  expect(summed([1, 1e100, 1, -1e100])).toBe(2)
  expect(summed([1e100, 1, -1e100])).toBe(1)
})

it('twelve lengths of 6 ft are 72 ft to the last digit (by hand)', () => {
  expect(summed(Array.from({ length: 12 }, () => 1828.8))).toBe(21_945.6)
  expect(new RunningSum().value).toBe(0)
})
