import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metal } from '../../../src/bending/metal.ts'
import { MOST_PASSES, passSchedule, straightEnds } from '../../../src/bending/roller/pass-schedule.ts'
import type { RollerBender } from '../../../src/bending/roller/roller-bender.ts'
import { rollerSetting } from '../../../src/bending/roller/roller-setting.ts'
import { rectanglesOf, sectionProperties } from '../../../src/bending/section-properties.ts'
import { formingCurvature } from '../../../src/bending/springback.ts'
import { SECTIONS } from '../../../src/catalogue/sections.ts'
import { anyMetal, HARD_BRASS, IDEAL, LINEAR, RAIL, ROLLS, SOFT_STAINLESS } from '../rails.ts'
import { inBender } from './in-bender.ts'
import { lawOf, rolledThrough } from './simulated-rail.ts'

const SOFT_BRASS: Metal = { ...HARD_BRASS, yieldMpa: 110, hardening: { model: 'ramberg-osgood', n: 4.5 } }
const ALL = [HARD_BRASS, SOFT_BRASS, SOFT_STAINLESS, LINEAR, IDEAL]
const inSteps = (maxPerPassMm: number | null): RollerBender => ({ ...ROLLS, maxPerPassMm })

/** The radius after each pass of the answered depths, by rail followed place by place. */
function simulated(metal: Metal, bender: RollerBender, wantedMm: number, section = RAIL) {
  const { passes } = rollerSetting(inBender(metal, bender, section), wantedMm)
  const law = lawOf(section, metal, 1.5 * formingCurvature(section, metal, 1 / wantedMm))
  const depths = passes.map(({ depthMm }) => depthMm)
  return { passes, radiiMm: rolledThrough(section, bender, law, depths).map((curvature) => 1 / curvature) }
}

describe('passes that are rolled one after the other', () => {
  it.each(
    ALL.flatMap((metal) =>
      [400, 2438].flatMap((wanted) => [null, 0.5, 0.1].map((step) => [metal, wanted, step] as const)),
    ),
  )('of %o end at %d mm in steps of %s mm, and leave after each what is answered', (metal, wanted, step) => {
    const { passes, radiiMm } = simulated(metal, inSteps(step), wanted)
    expect(Math.abs(radiiMm.at(-1)! / wanted - 1)).toBeLessThan(5e-3)
    for (const [index, { leavesRadiusMm }] of passes.entries())
      expect(Math.abs(wanted / radiiMm[index]! - wanted / leavesRadiusMm!)).toBeLessThan(5e-3)
    expect(passes.at(-1)!.leavesRadiusMm! / wanted).toBeCloseTo(1, 6)
  })

  it('of each section of the catalogue end there too, in benders of other spans and rollers', () => {
    const anyCase = fc.record({
      section: fc.constantFrom(...SECTIONS),
      metal: fc.constantFrom(...ALL),
      wanted: fc.double({ min: 600, max: 9000, noNaN: true }),
      spanMm: fc.double({ min: 60, max: 160, noNaN: true }),
      outerRollerRadiusMm: fc.double({ min: 0, max: 20, noNaN: true }),
      passes: fc.integer({ min: 1, max: 20 }),
    })
    fc.assert(
      fc.property(anyCase, ({ section, metal, wanted, spanMm, outerRollerRadiusMm, passes }) => {
        const properties = sectionProperties(rectanglesOf(section))
        const bender = { ...ROLLS, spanMm, outerRollerRadiusMm, maxPerPassMm: null }
        const rail = inBender(metal, bender, properties)
        const single = rollerSetting(rail, wanted).depthMm
        const step = single / passes
        const { radiiMm } = simulated(metal, { ...bender, maxPerPassMm: step }, wanted, properties)
        expect(Math.abs(radiiMm.at(-1)! / wanted - 1)).toBeLessThan(5e-3)
      }),
      { numRuns: 25 },
    )
  })

  it('would leave the rail much too flat if the last were only as deep as a single one', () => {
    const { passes } = rollerSetting(inBender(HARD_BRASS, inSteps(0.2)), 900)
    const single = rollerSetting(inBender(HARD_BRASS, inSteps(null)), 900).depthMm
    const law = lawOf(RAIL, HARD_BRASS, 1 / 100)
    const depths = [...passes.slice(0, -1).map(({ depthMm }) => Math.min(depthMm, single)), single]
    expect(1 / rolledThrough(RAIL, ROLLS, law, depths).at(-1)!).toBeGreaterThan(1.2 * 900)
    expect(passes.at(-1)!.depthMm).toBeGreaterThan(single)
  })
})

describe('steps', () => {
  it('are equal, no deeper than allowed, and as few as that takes; those within the elastic depth are left out', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ALL), fc.double({ min: 0.15, max: 1, noNaN: true }), (metal, most) => {
        const rail = inBender(metal, inSteps(most))
        const { passes, depthMm: lastMm } = rollerSetting(rail, 900)
        const depths = passes.map(({ depthMm }) => depthMm)
        const steps = depths.slice(1).map((depth, index) => depth - depths[index]!)
        for (const step of steps) {
          expect(step).toBeLessThanOrEqual(most + 2e-3)
          expect(step).toBeCloseTo(steps[0]!, 1)
        }
        expect(depths[0]).toBeGreaterThan(rail.elasticDepthMm)
        // What is left out before the first pass are steps of the same size.
        if (steps.length > 0) {
          const skipped = depths[0]! / steps[0]! - 1
          expect(skipped).toBeCloseTo(Math.round(skipped), 1)
          expect(Math.round(skipped) * steps[0]!).toBeLessThanOrEqual(rail.elasticDepthMm * (1 + 1e-9))
        }
        const radii = passes.map(({ leavesRadiusMm }) => leavesRadiusMm!)
        expect(radii).toEqual([...radii].sort((a, b) => b - a))
        // One step fewer would have to be deeper than allowed.
        const single = rollerSetting(inBender(metal, inSteps(null)), 900).depthMm
        const count = Math.round(lastMm / (steps[0] ?? lastMm))
        expect(count).toBeGreaterThanOrEqual(Math.ceil(single / most - 1e-6) - 1)
      }),
      { numRuns: 30 },
    )
  })

  it('that would bend the rail no further are left out', () => {
    const { passes } = rollerSetting(inBender(HARD_BRASS, inSteps(0.03)), 600)
    for (const [index, { leavesRadiusMm }] of passes.entries())
      if (index > 0) expect(leavesRadiusMm).toBeLessThan(passes[index - 1]!.leavesRadiusMm! * (1 - 1e-9))
    for (const { depthMm } of passes) expect(depthMm).toBeGreaterThan(inBender(HARD_BRASS, ROLLS).elasticDepthMm)
  })

  it('are one pass without a limit, and tell no turns without a pitch', () => {
    const bender = { ...ROLLS, maxPerPassMm: null, screwPitchMm: null }
    const { passes, depthMm } = rollerSetting(inBender(HARD_BRASS, bender), 900)
    expect(passes).toEqual([{ pass: 1, depthMm, turns: null, leavesRadiusMm: expect.closeTo(900, 6) }])
    const withPitch = rollerSetting(inBender(HARD_BRASS, { ...ROLLS, maxPerPassMm: null }), 900)
    expect(withPitch.passes[0]!.turns).toBeCloseTo(depthMm / 1.25, 12)
  })

  it('are one pass for a curve so gentle that the elastic depth is enough', () => {
    for (const metal of ALL)
      expect(rollerSetting(inBender(metal, inSteps(0.05)), 1e6).passes.length).toBeLessThanOrEqual(2)
    expect(rollerSetting(inBender(SOFT_BRASS, inSteps(0.05)), 1e5).passes).toHaveLength(1)
  })

  it('are none where it would take more than a hundred', () => {
    const model = { peakFor: (k: number) => k, leavesPerMm: (k: number) => k, depthMm: (_: number, k: number) => k }
    // by hand: from 0 to 1 in steps of a hundredth, and of a little less
    expect(passSchedule(model, 1, 0, 0.01)).toHaveLength(MOST_PASSES)
    expect(passSchedule(model, 1, 0, 0.0099)).toBeNull()
    expect(passSchedule(model, 1, 0, 1e-12)).toBeNull()
    const thirds = (elasticMm: number) => passSchedule(model, 1, elasticMm, 0.4)!.map(({ depthMm }) => depthMm)
    expect(thirds(0)).toEqual([expect.closeTo(1 / 3, 2), expect.closeTo(2 / 3, 2), 1])
    expect(thirds(0.5)).toEqual([expect.closeTo(2 / 3, 2), 1])
    expect(thirds(0.9)).toEqual([1])
  })

  it('for any rail and radius end at the wanted radius, each tighter than the last', () => {
    const anyWanted = fc.double({ min: 300, max: 20_000, noNaN: true })
    fc.assert(
      fc.property(anyMetal, anyWanted, fc.double({ min: 0.05, max: 2, noNaN: true }), (metal, wanted, step) => {
        const { passes, depthMm } = rollerSetting(inBender(metal, inSteps(step)), wanted)
        expect(passes.map(({ pass }) => pass)).toEqual(passes.map((_, index) => index + 1))
        if (passes.length === 0) return
        expect(passes.at(-1)!.leavesRadiusMm! / wanted).toBeCloseTo(1, 6)
        expect(passes.at(-1)!.depthMm).toBe(depthMm)
      }),
      { numRuns: 60 },
    )
  })
})

describe('straight ends', () => {
  it('are half a span each, with three ways out', () => {
    expect(straightEnds({ ...ROLLS, spanMm: 65 })).toEqual({
      eachMm: 32.5,
      extraLengthMm: 65,
      treatments: ['trim', 'finish-by-hand', 'join-and-roll-through'],
    })
  })
})
