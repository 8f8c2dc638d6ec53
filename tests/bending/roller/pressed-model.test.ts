import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metal } from '../../../src/bending/metal.ts'
import { LoadingCurve } from '../../../src/bending/roller/loading-curve.ts'
import { PressedModel, pressStepMm } from '../../../src/bending/roller/pressed-model.ts'
import { rollerSetting } from '../../../src/bending/roller/roller-setting.ts'
import { anyMetal, HARD_BRASS, IDEAL, LINEAR, RAIL, ROLLS, SOFT_STAINLESS } from '../rails.ts'
import { inBender } from './in-bender.ts'
import { lawOf, pressedAlong } from './simulated-rail.ts'

const SOFT_BRASS: Metal = { ...HARD_BRASS, yieldMpa: 110, hardening: { model: 'ramberg-osgood', n: 4.5 } }
const PRESSED = { ...ROLLS, mode: 'pressed' } as const
const modelOf = (metal: Metal, stepMm: number) =>
  new PressedModel(RAIL, metal, PRESSED, stepMm, new LoadingCurve(RAIL, metal))

describe('the distance between presses', () => {
  it('is a quarter of the span, in whole millimetres (by hand)', () => {
    expect(pressStepMm(PRESSED, 2438)).toBe(20)
    expect(pressStepMm({ ...PRESSED, spanMm: 102 }, 2438)).toBe(25)
    expect(pressStepMm({ ...PRESSED, spanMm: 2 }, 2438)).toBe(0.5)
  })

  it('is less where kinks at the presses would be 0.1 mm off a tight curve (by hand: √(8 · 200 · 0.1) = 12.6)', () => {
    expect(pressStepMm(PRESSED, 200)).toBe(12)
  })
})

describe('a stick pressed place by place', () => {
  it.each([
    [HARD_BRASS, 900, null],
    [HARD_BRASS, 2438, 0.2],
    [SOFT_BRASS, 600, null],
    [SOFT_BRASS, 2438, null],
    [SOFT_STAINLESS, 900, 0.5],
    [LINEAR, 2438, null],
    [IDEAL, 1500, null],
  ])('of %o ends at a mean radius of %d mm', (metal, wanted, maxPerPassMm) => {
    const bender = { ...PRESSED, maxPerPassMm }
    const { passes, pressed } = rollerSetting(inBender(metal, bender), wanted)
    const depths = passes.map(({ depthMm }) => depthMm)
    if (maxPerPassMm !== null) expect(depths.length).toBeGreaterThan(1)
    const law = lawOf(RAIL, metal, 1.5 * modelOf(metal, pressed!.stepMm).peakFor(1 / wanted))
    const kept = pressedAlong(RAIL, bender, law, depths, pressed!.stepMm, 14)
    const mean = kept.reduce((sum, curvature) => sum + curvature, 0) / kept.length
    expect(Math.abs(1 / mean / wanted - 1)).toBeLessThan(5e-3)
    // By the middle of the chord of one step: what the rail is flatter than its mean between two presses.
    expect(pressed!.scallopMm).toBeLessThan(0.1)
  })
})

describe('scallops', () => {
  it('are between none and those of kinks at the presses, P²/(8R) (closed form)', () => {
    fc.assert(
      fc.property(anyMetal, fc.double({ min: 300, max: 20_000, noNaN: true }), (metal, wanted) => {
        const { stepMm, scallopMm } = rollerSetting(inBender(metal, PRESSED), wanted).pressed!
        expect(scallopMm).toBeGreaterThan(0)
        expect(scallopMm).toBeLessThan((stepMm * stepMm) / (8 * wanted))
      }),
      { numRuns: 60 },
    )
  })
})

it('metal that does not harden is pressed at shorter distances rather than kinked', () => {
  const limp: Metal = { ...IDEAL, youngsModulusMpa: 60_000, yieldMpa: 60 }
  const { pressed, passes } = rollerSetting(inBender(limp, { ...PRESSED, maxPerPassMm: null }), 300)
  expect(pressed!.stepMm).toBeLessThan(pressStepMm(PRESSED, 300))
  expect(passes[0]!.leavesRadiusMm).toBeCloseTo(300, 6)
})

it('the mean of what a peak leaves is less than at the press, and the peak for a mean leaves it', () => {
  for (const metal of [HARD_BRASS, SOFT_BRASS, LINEAR, IDEAL])
    for (const wanted of [400, 2438, 20_000]) {
      const model = modelOf(metal, 20)
      const peak = model.peakFor(1 / wanted)
      expect(model.leavesPerMm(peak) * wanted).toBeCloseTo(1, 9)
      expect(new LoadingCurve(RAIL, metal).setPerMm(peak)).toBeGreaterThan(1 / wanted)
    }
})

it('a deeper press is needed the more the rail was bent before', () => {
  const model = modelOf(HARD_BRASS, 20)
  const peak = model.peakFor(1 / 900)
  const depths = [0, 0.25, 0.5, 0.75, 1].map((share) => model.depthMm(share * peak, peak))
  expect(depths).toEqual([...depths].sort((a, b) => a - b))
  expect(depths[4]).toBeGreaterThan(depths[0]!)
})
