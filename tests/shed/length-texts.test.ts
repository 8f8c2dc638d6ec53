import { expect, test } from 'vitest'
import { lengthText, lengthTextsIn, textsOfStock } from '../../src/shed/length-texts.ts'
import { NOTHING } from '../../src/shed/stock.ts'

test('lengths written as text are remembered by their millimetres, numbers are not', () => {
  const texts = lengthTextsIn({
    sticks: [{ length: ' 6 ft ' }, { length: 1524 }, { lengthMm: '30 cm' }, { length: 'long' }, 3],
    panels: [{ diameter: '20 ft', angle: 30 }, { length: '600mm' }],
    ties: 3,
  })
  // by hand: 6 × 304.8 and 20 × 304.8
  expect(texts).toEqual({ '1828.8': '6 ft', '300': '30 cm', '6096': '20 ft', '600': '600mm' })
  expect(lengthText(texts, 6 * 304.8)).toBe('6 ft')
  expect(lengthText(texts, 1828.8 + 4e-7)).toBe('6 ft')
  expect(lengthText(texts, 1829)).toBeNull()
  expect(lengthText({}, Number('NaN'))).toBeNull()
  expect(lengthTextsIn(null)).toEqual({})
})

test('only the texts of lengths in the stock are kept, of a curve the one that was written last', () => {
  const rail = { section: '250', material: 'brass', count: 1 }
  const stock = {
    ...NOTHING,
    sticks: [{ ...rail, lengthMm: 1828.8 }],
    panels: [{ ...rail, lengthMm: 1596, radiusMm: 3048, angleDeg: 30, ties: 0 }],
  }
  const known = { '1828.8': '6 ft', '6096': '20 ft', '1596': 'x', '9': '9 mm' }
  expect(textsOfStock({}, known, stock)).toEqual({ '1828.8': '6 ft', '6096': '20 ft' })
  expect(textsOfStock({ '3048': '10 ft' }, known, stock)).toEqual({ '1828.8': '6 ft', '3048': '10 ft' })
  expect(textsOfStock({ '1828.8': '72 in' }, known, stock)).toEqual({ '1828.8': '72 in', '6096': '20 ft' })
})
