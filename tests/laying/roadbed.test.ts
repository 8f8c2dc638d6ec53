import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Bed, ballastInPlace, bedSection, looseVolume } from '../../src/laying/roadbed.ts'

const RAISED: Bed = {
  kind: 'raised',
  crownWidth: 130,
  depthUnderTie: 40,
  shoulderSlope: 1.25,
  filledTo: 'tie-top',
  tie: { length: 95, width: 18, height: 10 },
}
const TRENCH: Bed = { ...RAISED, kind: 'trench', shoulderSlope: 0, filledTo: 'tie-bottom', depthUnderTie: 60 }

describe('the section of a bed', () => {
  // by hand
  it.each([
    ['raised, ties bedded: 50 high, 130 + 2 × 62.5 wide', RAISED, 50, 255, 9625],
    ['raised, ties on top: 40 high, 130 + 100 wide', { ...RAISED, filledTo: 'tie-bottom' } as Bed, 40, 230, 7200],
    ['a trench with upright sides', TRENCH, 60, 130, 7800],
    ['a trench that narrows 1:0.5', { ...TRENCH, shoulderSlope: 0.5 }, 60, 70, 6000],
    ['a trench filled to the tops of the ties', { ...TRENCH, filledTo: 'tie-top' } as Bed, 70, 130, 9100],
  ])('%s', (_, bed, heightMm, baseWidthMm, areaMm2) => {
    expect(bedSection(bed)).toEqual({ heightMm, baseWidthMm, areaMm2 })
  })
})

describe('ballast', () => {
  it('is the section along the track less the ties in it', () => {
    // by hand: 9625 mm² over 10 m is 96.25 L; 200 ties of 95 × 18 × 10 mm are 3.42 L
    const { volumeL, tiesL } = ballastInPlace(RAISED, 10_000, 200)
    expect(volumeL).toBeCloseTo(92.83, 10)
    expect(tiesL).toBeCloseTo(3.42, 10)
  })

  it('up to the bottoms of the ties takes nothing off for them, and wants no size of them', () => {
    expect(ballastInPlace({ ...TRENCH, tie: null }, 10_000, 200)).toEqual({ volumeL: 78, tiesL: 0 })
    expect(ballastInPlace(TRENCH, 10_000, 200)).toEqual({ volumeL: 78, tiesL: 0 })
  })

  it('is none on no track, and never less than none', () => {
    expect(ballastInPlace(RAISED, 0, 0)).toEqual({ volumeL: 0, tiesL: 0 })
    expect(ballastInPlace(RAISED, 1, 9).volumeL).toBe(0)
  })

  it('is brought loose: 85 L in place are 100 L at 15 %', () => {
    // by hand
    expect(looseVolume(85, 15)).toBeCloseTo(100, 12)
    expect(looseVolume(85, 0)).toBe(85)
    expect(looseVolume(0, 15)).toBe(0)
  })

  it('adds up over parts of a track, and to what slices of the section say', () => {
    const size = fc.double({ min: 1, max: 500, noNaN: true })
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 0, max: 4, noNaN: true }),
        size,
        size,
        (crownWidthMm, depthUnderTieMm, slope, a, b) => {
          const bed: Bed = {
            ...RAISED,
            crownWidth: crownWidthMm,
            depthUnderTie: depthUnderTieMm,
            shoulderSlope: slope,
            filledTo: 'tie-bottom',
          }
          const volume = (lengthMm: number) => ballastInPlace(bed, lengthMm, 0).volumeL
          expect(volume(a) + volume(b)).toBeCloseTo(volume(a + b), 8)
          // closed form: the width is linear in the depth, so the slice half-way down stands for all
          const sliceMm = crownWidthMm + 2 * slope * (depthUnderTieMm / 2)
          expect(volume(a)).toBeCloseTo(sliceMm * depthUnderTieMm * a * 1e-6, 8)
        },
      ),
    )
  })
})
