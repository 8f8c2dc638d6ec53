import { describe, expect, it } from 'vitest'
import { benderLine, depthOnLineMm } from '../../../src/bending/calibration/bender-line.ts'
import { onePassDepthMm } from '../../../src/bending/roller/model-for.ts'
import { HARD_BRASS, RAIL, ROLLS } from '../rails.ts'

const rail = { section: RAIL, metal: HARD_BRASS, bender: ROLLS }

/** A bender with 0.12 mm of play that needs 1.1 times the estimated depth. */
function bent(restingRadiusMm: number, off = 0) {
  return {
    restingRadiusMm,
    depthMm: 0.12 + 1.1 * onePassDepthMm(RAIL, HARD_BRASS, ROLLS, 1 / restingRadiusMm) + off,
  }
}

describe('a bender’s own line', () => {
  it('finds play and scale from two passes and more', () => {
    for (const radii of [
      [500, 2000],
      [400, 700, 1500, 3000],
    ]) {
      const line = benderLine(
        rail,
        radii.map((radius) => bent(radius)),
      )!
      expect(line.offsetMm).toBeCloseTo(0.12, 8)
      expect(line.scale).toBeCloseTo(1.1, 8)
      expect(line.passes).toBe(radii.length)
      expect(depthOnLineMm(line, rail, 1000)).toBeCloseTo(bent(1000).depthMm, 8)
    }
  })

  it('tells how far three passes or more depart from it (by hand: least squares of equal and opposite slips)', () => {
    expect(benderLine(rail, [bent(500), bent(2000)])!.spreadMm).toBeNull()
    expect(benderLine(rail, [bent(500), bent(900), bent(2000)])!.spreadMm).toBeCloseTo(0, 9)
    const twice = [bent(500, 0.02), bent(500, -0.02), bent(2000, 0.02), bent(2000, -0.02)]
    const line = benderLine(rail, twice)!
    expect(line.spreadMm).toBeCloseTo(0.02, 9)
    expect(line.offsetMm).toBeCloseTo(0.12, 8)
  })

  it('meets a single pass, and the middle of passes too much alike, by its offset alone', () => {
    const one = benderLine(rail, [bent(800)])!
    const estimate = onePassDepthMm(RAIL, HARD_BRASS, ROLLS, 1 / 800)
    // by hand: 0.12 mm of play and a tenth of the estimate are one offset at this depth
    expect(one).toMatchObject({ scale: 1, offsetMm: expect.closeTo(0.12 + 0.1 * estimate, 9), hasScale: false })
    expect(depthOnLineMm(one, rail, 800)).toBeCloseTo(bent(800).depthMm, 12)
    const alike = benderLine(rail, [bent(800), bent(820)])!
    expect(alike.hasScale).toBe(false)
    expect(alike.offsetMm).toBeCloseTo((one.offsetMm + benderLine(rail, [bent(820)])!.offsetMm) / 2, 12)
    expect(benderLine(rail, [bent(500), bent(2000)])!.hasScale).toBe(true)
  })

  it('is none when deeper passes came out straighter', () => {
    const swapped = [
      { restingRadiusMm: 500, depthMm: 0.6 },
      { restingRadiusMm: 2000, depthMm: 1.4 },
    ]
    expect(benderLine(rail, swapped)).toBeNull()
  })
})
