import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  arcOfChordMm,
  midOrdinateMm,
  ordinateAtMm,
  quarterOrdinateMm,
  radiusFromMidOrdinateMm,
} from '../../src/bending/ordinates.ts'

describe('mid-ordinates at garden radii (derived: the exact formula in long arithmetic, no publication)', () => {
  it.each([
    [600, 300, 19.052],
    [600, 500, 54.564],
    [1200, 300, 9.412],
    [1200, 500, 26.331],
    [2400, 300, 4.692],
    [2400, 500, 13.056],
    [3000, 300, 3.752],
    [3000, 500, 10.435],
  ])('R %d, chord %d: %d', (radiusMm, chordMm, midMm) => {
    expect(Math.abs(midOrdinateMm(radiusMm, chordMm)! - midMm)).toBeLessThanOrEqual(0.0005)
  })

  it('the quarter ordinate is a little over ¾ of it', () => {
    const ratio = (radius: number, chord: number) => quarterOrdinateMm(radius, chord)! / midOrdinateMm(radius, chord)!
    expect(ratio(1200, 300)).toBeCloseTo(0.7507, 4)
    expect(ratio(1200, 1000)).toBeCloseTo(0.7587, 4)
  })
})

describe('ordinates by hand', () => {
  it('the 3-4-5 triangle: R 500, chord 800', () => {
    expect(midOrdinateMm(500, 800)).toBeCloseTo(200, 12)
    expect(ordinateAtMm(500, 800, 300)).toBeCloseTo(100, 12)
    expect(ordinateAtMm(500, 800, -300)).toBeCloseTo(100, 12)
    expect(ordinateAtMm(500, 800, 400)).toBe(0)
    expect(radiusFromMidOrdinateMm(800, 200)).toBe(500)
    expect(radiusFromMidOrdinateMm(800, -200)).toBe(-500)
  })

  it('a chord as long as the diameter stands off by the radius', () => {
    expect(midOrdinateMm(500, 1000)).toBe(500)
    expect(ordinateAtMm(500, 1000, 500)).toBe(0)
    expect(arcOfChordMm(500, 1000)).toBeCloseTo(500 * Math.PI, 10)
    expect(radiusFromMidOrdinateMm(1000, 500)).toBe(500)
  })

  it('more than half a circle: R 500, chord 800 from the far side', () => {
    expect(radiusFromMidOrdinateMm(800, 800)).toBe(500)
  })

  it('a sixth of a circle: the chord is the radius', () => {
    expect(arcOfChordMm(1200, 1200)).toBeCloseTo(400 * Math.PI, 10)
  })
})

describe('refusals', () => {
  it('a chord longer than the diameter', () => {
    expect(midOrdinateMm(500, 1000.001)).toBeNull()
    expect(quarterOrdinateMm(500, 1001)).toBeNull()
    expect(arcOfChordMm(500, 1001)).toBeNull()
  })

  it('a point off the chord, a chord or radius of nothing or less, and what is no number', () => {
    expect(ordinateAtMm(500, 800, 400.1)).toBeNull()
    expect(midOrdinateMm(500, 0)).toBeNull()
    expect(midOrdinateMm(500, -1)).toBeNull()
    expect(midOrdinateMm(0, 10)).toBeNull()
    expect(midOrdinateMm(-500, 10)).toBeNull()
    expect(midOrdinateMm(Number.NaN, 10)).toBeNull()
    expect(arcOfChordMm(0, 0)).toBeNull()
    expect(radiusFromMidOrdinateMm(500, 0)).toBeNull()
  })

  it('no chord spans no arc', () => {
    expect(arcOfChordMm(500, 0)).toBe(0)
  })
})

describe('what must hold for any chord', () => {
  const radius = fc.double({ min: 1, max: 1e9, noNaN: true })
  const share = fc.double({ min: 1e-6, max: 1, noNaN: true })

  it('radius → ordinate → radius', () => {
    fc.assert(
      fc.property(radius, share, (radiusMm, part) => {
        const chord = 2 * radiusMm * part
        const back = radiusFromMidOrdinateMm(chord, midOrdinateMm(radiusMm, chord)!)!
        expect(Math.abs(back / radiusMm - 1)).toBeLessThan(1e-12)
      }),
    )
  })

  it('C²/8R = M − M²/2R', () => {
    fc.assert(
      fc.property(radius, share, (radiusMm, part) => {
        const chord = 2 * radiusMm * part
        const mid = midOrdinateMm(radiusMm, chord)!
        expect((mid - (mid * mid) / (2 * radiusMm)) / ((chord * chord) / (8 * radiusMm))).toBeCloseTo(1, 9)
      }),
    )
  })

  it('every point found so lies on the circle', () => {
    fc.assert(
      fc.property(radius, share, fc.double({ min: -1, max: 1, noNaN: true }), (radiusMm, part, place) => {
        const chord = 2 * radiusMm * part
        const x = (place * chord) / 2
        const y = ordinateAtMm(radiusMm, chord, x)!
        const centre = radiusMm - midOrdinateMm(radiusMm, chord)!
        expect(Math.hypot(x, centre + y) / radiusMm).toBeCloseTo(1, 12)
        expect(y).toBeGreaterThanOrEqual(0)
        expect(y).toBeLessThanOrEqual(midOrdinateMm(radiusMm, chord)! * (1 + 1e-12))
      }),
    )
  })

  it('chord < arc ≤ π/2 chords, and the chord comes back from it', () => {
    fc.assert(
      fc.property(radius, share, (radiusMm, part) => {
        const chord = 2 * radiusMm * part
        const along = arcOfChordMm(radiusMm, chord)!
        expect(along / chord).toBeGreaterThanOrEqual(1 - 1e-12)
        expect(along / chord).toBeLessThanOrEqual(Math.PI / 2 + 1e-12)
        expect((2 * radiusMm * Math.sin(along / (2 * radiusMm))) / chord).toBeCloseTo(1, 9)
      }),
    )
  })

  it('keeps its digits on a nearly straight rail: M → C²/8R (closed form)', () => {
    expect(midOrdinateMm(1e12, 500)! / (500 ** 2 / 8e12)).toBeCloseTo(1, 15)
    expect(quarterOrdinateMm(1e12, 500)! / midOrdinateMm(1e12, 500)!).toBeCloseTo(0.75, 15)
  })
})
