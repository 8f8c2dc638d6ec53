import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { arcDepthMm } from '../../../src/bending/roller/roller-bender.ts'
import { rollerSetting } from '../../../src/bending/roller/roller-setting.ts'
import { elasticDepthMm, threePointDepthMm } from '../../../src/bending/roller/three-point-depth.ts'
import { forming, restingRadiusMm } from '../../../src/bending/springback.ts'
import { anyMetal, HARD_BRASS, RAIL, ROLLS, THREE_LAWS } from '../rails.ts'
import { inBender } from './in-bender.ts'

describe('the setting of a roller bender', () => {
  it('is the depth of the radius to bend to, from which the rail springs back to the wanted one', () => {
    const anyWanted = fc.double({ min: 300, max: 20_000, noNaN: true })
    fc.assert(
      fc.property(anyMetal, anyWanted, (metal, wanted) => {
        const bender = { ...ROLLS, maxPerPassMm: null }
        const { depthMm } = rollerSetting(inBender(metal, bender), wanted)
        const { formingRadiusMm } = forming(RAIL, metal, wanted)
        expect(depthMm / threePointDepthMm(RAIL, metal, bender, 1 / formingRadiusMm)).toBeCloseTo(1, 9)
        expect(restingRadiusMm(RAIL, metal, formingRadiusMm)! / wanted).toBeCloseTo(1, 6)
      }),
      { numRuns: 40 },
    )
  })

  it('shows the arc’s depth at the forming radius, the depth in turns, and passes that end there', () => {
    const setting = rollerSetting(inBender(HARD_BRASS, ROLLS), 900)
    const { formingRadiusMm } = forming(RAIL, HARD_BRASS, 900)
    expect(setting.arcDepthMm).toBeCloseTo(arcDepthMm(RAIL, ROLLS, formingRadiusMm)!, 12)
    expect(setting.turns).toBeCloseTo(setting.depthMm / 1.25, 12)
    expect(setting.passes.at(-1)).toEqual({
      pass: setting.passes.length,
      depthMm: setting.depthMm,
      turns: setting.turns,
      leavesRadiusMm: expect.closeTo(900, 6),
    })
    expect(elasticDepthMm(RAIL, HARD_BRASS, ROLLS)).toBeLessThan(setting.depthMm)
    expect(setting.pressed).toBeNull()
  })

  it('is deeper for a tighter radius', () => {
    for (const metal of THREE_LAWS)
      expect(rollerSetting(inBender(metal, ROLLS), 800).depthMm).toBeGreaterThan(
        rollerSetting(inBender(metal, ROLLS), 900).depthMm,
      )
  })

  it('has no arc where the rail would reach round the rollers', () => {
    expect(rollerSetting(inBender(HARD_BRASS, { ...ROLLS, spanMm: 800 }), 300).arcDepthMm).toBeNull()
  })
})
