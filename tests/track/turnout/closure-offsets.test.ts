import { describe, expect, it } from 'vitest'
import { closureOffsets } from '../../../src/track/turnout/closure-offsets.ts'
import { SIZES, worked } from './sizes.ts'

describe('offsets of the curved closure rail', () => {
  it('of a No. 6 with heel and toe are those of its outer gauge line (closed form)', () => {
    const six = worked(SIZES['straight frog with switch and toe']!)
    const { outerGaugeRadiusMm: r, frogRad: f, heelRad: s } = six
    for (const [n, { alongMm, offsetMm }] of closureOffsets(six, 45).entries()) {
      const theta = s + (n / 4) * (f - s)
      expect(alongMm).toBeCloseTo(150 + r * (Math.sin(theta) - Math.sin(s)), 8)
      expect(offsetMm).toBeCloseTo(6.5 + r * (Math.cos(s) - Math.cos(theta)), 8)
    }
  })

  it('without them begin at the points and end at the frog, a gauge away', () => {
    const six = closureOffsets(worked({ hand: 'left', number: 6 }), 45)
    expect(six[0]!.alongMm).toBeCloseTo(0, 9)
    expect(six[0]!.offsetMm).toBeCloseTo(0, 9)
    expect(six[4]!.alongMm).toBeCloseTo(540, 8)
    expect(six[4]!.offsetMm).toBeCloseTo(45, 8)
  })

  it('of the other hand are the same', () => {
    const size = SIZES['straight frog with switch and toe']!
    const [left, right] = [worked(size), worked({ ...size, hand: 'right' })].map((each) => closureOffsets(each, 45))
    for (const [n, place] of left!.entries()) {
      expect(right![n]!.alongMm).toBeCloseTo(place.alongMm, 10)
      expect(right![n]!.offsetMm).toBeCloseTo(place.offsetMm, 10)
    }
  })
})
