import { describe, expect, it } from 'vitest'
import type { Calibration } from '../../../src/bending/calibration/calibration.ts'
import { railToBend } from '../../../src/bending/forming/rail-to-bend.ts'
import { MATERIALS } from '../../../src/catalogue/materials.ts'
import { HARD_BRASS, RAIL } from '../rails.ts'

const TEMPERS = MATERIALS[0]!.tempers
const TOLD: Calibration = {
  effectiveYieldMpa: 300,
  lowMpa: 280,
  highMpa: 330,
  determined: 'fairly',
  from: 'radii',
  tells: ['yield'],
  readings: [],
  spread: null,
  consistent: true,
  line: null,
}
const of = (basis: string | null, told: Calibration | null) =>
  railToBend({ section: RAIL, headWidthMm: 2.9 }, HARD_BRASS, basis, TEMPERS, told)

describe('what is known of a rail', () => {
  it('is what its test bends tell, before its temper', () => {
    expect(of('half-hard', TOLD)).toMatchObject({
      basis: 'calibrated',
      metal: { ...HARD_BRASS, yieldMpa: 300 },
      yields: { lowMpa: 280, highMpa: 330 },
      tempers: [],
    })
  })

  it('where they bound it on one side only, 15 % stand for the other (by hand)', () => {
    expect(of(null, { ...TOLD, lowMpa: null })).toMatchObject({
      yields: { lowMpa: expect.closeTo(255, 9), highMpa: 330 },
    })
    expect(of(null, { ...TOLD, highMpa: null })).toMatchObject({
      yields: { lowMpa: 280, highMpa: expect.closeTo(345, 9) },
    })
  })

  it('is its temper with 15 % either way, where no test bend tells a yield (by hand)', () => {
    for (const told of [null, { ...TOLD, effectiveYieldMpa: null, lowMpa: null, highMpa: null }]) {
      const rail = of('half-hard', told)
      expect(rail).toMatchObject({ basis: 'half-hard', metal: HARD_BRASS, line: null })
      expect(rail.tempers).toEqual([])
      expect(rail.yields).toEqual({ lowMpa: expect.closeTo(293.25, 9), highMpa: expect.closeTo(396.75, 9) })
    }
  })

  it('is every temper of its material where nothing is told', () => {
    expect(of(null, null)).toMatchObject({ basis: null, metal: null, yields: null, tempers: TEMPERS })
  })

  it('keeps a bender’s line, whatever else is known', () => {
    const line = { line: { offsetMm: 0.1, scale: 1 }, rail: {} } as unknown as Calibration['line']
    expect(of('half-hard', { ...TOLD, line }).line).toBe(line)
    expect(of(null, { ...TOLD, effectiveYieldMpa: null, line }).line).toBe(line)
  })
})
