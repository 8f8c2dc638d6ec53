import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { momentNmm } from '../../../src/bending/moment-curvature.ts'
import { arcDepthMm } from '../../../src/bending/roller/roller-bender.ts'
import { rollerSetting } from '../../../src/bending/roller/roller-setting.ts'
import { elasticDepthMm, threePointDepthMm } from '../../../src/bending/roller/three-point-depth.ts'
import { forming, restingRadiusMm } from '../../../src/bending/springback.ts'
import { anyMetal, HARD_BRASS, IDEAL, RAIL, ROLLS, THREE_LAWS } from '../rails.ts'

const PRESSED = { ...ROLLS, mode: 'pressed' } as const

describe('the setting of a roller bender', () => {
  it('is the depth of the radius to bend to, from which the rail springs back to the wanted one', () => {
    const anyWanted = fc.double({ min: 300, max: 20_000, noNaN: true })
    fc.assert(
      fc.property(anyMetal, anyWanted, fc.constantFrom(ROLLS, PRESSED), (metal, wanted, bender) => {
        const { depthMm } = rollerSetting(RAIL, metal, bender, wanted)
        const { formingRadiusMm } = forming(RAIL, metal, wanted)
        expect(depthMm / threePointDepthMm(RAIL, metal, bender, 1 / formingRadiusMm)).toBeCloseTo(1, 9)
        expect(restingRadiusMm(RAIL, metal, formingRadiusMm)! / wanted).toBeCloseTo(1, 6)
      }),
      { numRuns: 40 },
    )
  })

  it('shows the arc’s depth at the forming radius, the depth in turns, and passes that end there', () => {
    const setting = rollerSetting(RAIL, HARD_BRASS, ROLLS, 900)
    const { formingRadiusMm } = forming(RAIL, HARD_BRASS, 900)
    expect(setting.arcDepthMm).toBeCloseTo(arcDepthMm(RAIL, ROLLS, formingRadiusMm)!, 12)
    expect(setting.turns).toBeCloseTo(setting.depthMm / 1.25, 12)
    expect(setting.passes.at(-1)).toEqual({
      pass: setting.passes.length,
      depthMm: setting.depthMm,
      turns: setting.turns,
    })
    expect(elasticDepthMm(RAIL, HARD_BRASS, ROLLS)).toBeLessThan(setting.depthMm)
    expect(setting.pressStepMm).toBeNull()
  })

  it('is deeper for a tighter radius', () => {
    for (const metal of THREE_LAWS)
      expect(rollerSetting(RAIL, metal, ROLLS, 800).depthMm).toBeGreaterThan(
        rollerSetting(RAIL, metal, ROLLS, 900).depthMm,
      )
  })

  it('has no arc where the rail would reach round the rollers', () => {
    expect(rollerSetting(RAIL, HARD_BRASS, { ...ROLLS, spanMm: 800 }, 300).arcDepthMm).toBeNull()
  })

  it('moves pressed rail on so far that nine tenths of the curvature stand half way between two presses', () => {
    for (const metal of [HARD_BRASS, IDEAL]) {
      const step = rollerSetting(RAIL, metal, PRESSED, 900).pressStepMm!
      const atRoller = momentNmm(RAIL, metal, 1 / forming(RAIL, metal, 900).formingRadiusMm)
      const between = momentNmm(RAIL, metal, 1 / forming(RAIL, metal, 1000).formingRadiusMm)
      expect(step).toBeGreaterThan(0)
      expect(step).toBeLessThan(40)
      // Half a step out the moment has fallen by step/span of itself.
      expect(atRoller * (1 - step / 80)).toBeCloseTo(between, 6)
    }
  })
})
