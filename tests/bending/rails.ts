import fc from 'fast-check'
import type { Metal } from '../../src/bending/metal.ts'
import type { RollerBender } from '../../src/bending/roller/roller-bender.ts'
import { type RectangleStack, sectionProperties } from '../../src/bending/section-properties.ts'
import { completeBender } from '../../src/plan/completing/bender.ts'
import { SILENT } from '../../src/plan/fields/complete.ts'

/** A rail with foot, web and head all different. */
export const RAIL = sectionProperties([
  { widthMm: 5.6, heightMm: 1.1 },
  { widthMm: 0.7, heightMm: 3.4 },
  { widthMm: 2.9, heightMm: 1.8 },
])

export const HARD_BRASS: Metal = {
  youngsModulusMpa: 110_300,
  yieldMpa: 345,
  hardening: { model: 'ramberg-osgood', n: 19 },
  elongationPct: 23,
}

export const SOFT_STAINLESS: Metal = {
  youngsModulusMpa: 193_000,
  yieldMpa: 290,
  hardening: { model: 'ramberg-osgood', n: 7 },
  elongationPct: 55,
}

export const IDEAL: Metal = { ...HARD_BRASS, hardening: { model: 'perfectly-plastic' }, elongationPct: null }
export const LINEAR: Metal = { ...HARD_BRASS, hardening: { model: 'linear', tangentModulusMpa: 2700 } }
export const THREE_LAWS = [HARD_BRASS, LINEAR, IDEAL]

export const ROLLS: RollerBender = {
  spanMm: 80,
  outerRollerRadiusMm: 6,
  bearsOn: 'foot',
  mode: 'rolled',
  maxPerPassMm: 0.5,
  screwPitchMm: 1.25,
}

/** What hands can be asked to do where a plan says nothing. */
export const USUAL_LIMITS = completeBender({}, SILENT).limits

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

export const anyRectangles: fc.Arbitrary<RectangleStack> = fc.array(
  fc.record({ widthMm: between(0.3, 20), heightMm: between(0.2, 12) }),
  { minLength: 1, maxLength: 5 },
)

export const anySection = anyRectangles.map(sectionProperties)

export const anyMetal: fc.Arbitrary<Metal> = fc
  .record({
    youngsModulusMpa: between(60_000, 220_000),
    yieldMpa: between(60, 900),
    n: between(2, 50),
    tangentShare: between(0.001, 0.2),
    model: fc.constantFrom('ramberg-osgood', 'linear', 'perfectly-plastic'),
  })
  .map(({ youngsModulusMpa, yieldMpa, n, tangentShare, model }) => ({
    youngsModulusMpa,
    yieldMpa,
    elongationPct: null,
    hardening:
      model === 'ramberg-osgood'
        ? { model, n }
        : model === 'linear'
          ? { model, tangentModulusMpa: tangentShare * youngsModulusMpa }
          : { model: 'perfectly-plastic' },
  }))

/** Of a rail's line, from tight to all but straight. */
export const anyRadiusMm = between(Math.log(60), Math.log(100_000)).map(Math.exp)
