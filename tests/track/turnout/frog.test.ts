import { describe, expect, it } from 'vitest'
import { toDegrees } from '../../../src/measure/angle.ts'
import { frogAngleRad, frogNumber, NUMBERINGS } from '../../../src/track/turnout/frog.ts'

describe('the angle of a frog', () => {
  it('differs with the numbering: No. 6, closed forms', () => {
    const deg = (numbering: (typeof NUMBERINGS)[number]) => toDegrees(frogAngleRad(6, numbering))
    expect(deg('half-cot')).toBeCloseTo((2 * Math.atan(1 / 12) * 180) / Math.PI, 12)
    expect(deg('cot')).toBeCloseTo((Math.atan(1 / 6) * 180) / Math.PI, 12)
    expect(deg('half-cosec')).toBeCloseTo((2 * Math.asin(1 / 12) * 180) / Math.PI, 12)
    // By hand: 9.4623°, 9.5273°, 9.5604° in this order.
    expect(deg('cot')).toBeCloseTo(9.4623, 4)
    expect(deg('half-cot')).toBeCloseTo(9.5273, 4)
    expect(deg('half-cosec')).toBeCloseTo(9.5604, 4)
  })

  it('gives the number back, from 1 to 100', () => {
    for (const numbering of NUMBERINGS)
      for (const number of [1, 2, 3.5, 6, 40, 100])
        expect(frogNumber(frogAngleRad(number, numbering), numbering)).toBeCloseTo(number, 9)
  })
})
