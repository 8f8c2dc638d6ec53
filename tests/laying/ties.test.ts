import { describe, expect, it } from 'vitest'
import { tiesUnder } from '../../src/laying/ties.ts'

describe('ties', () => {
  // by hand
  it.each([
    [450, 45, false, 0, 11],
    [449.9, 45, false, 0, 10],
    [450 - 5e-7, 45, false, 0, 11],
    [450, 45, false, 1, 10],
    [450, 45, false, 2, 9],
    [10, 45, false, 0, 1],
    [10, 45, false, 2, 0],
    [450, 45, true, 0, 10],
    [450.1, 45, true, 0, 11],
    [450 + 5e-7, 45, true, 0, 10],
    [10, 45, true, 0, 1],
  ])('%d mm at %d mm, closed %s, %d ends shared: %d', (lengthMm, spacingMm, closed, sharedEnds, ties) => {
    expect(tiesUnder(lengthMm, spacingMm, closed, sharedEnds).ties).toBe(ties)
  })

  it('answers the spacing at which they really stand', () => {
    expect(tiesUnder(1000, 45, true, 0).tieSpacingMm).toBeCloseTo(1000 / 23, 12)
    expect(tiesUnder(1000, 45, false, 0).tieSpacingMm).toBe(45)
  })
})
