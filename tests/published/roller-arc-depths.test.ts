import { describe, expect, it } from 'vitest'
import { arcDepthMm, type RollerBender } from '../../src/bending/roller/roller-bender.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Depth of the centre roller of a bender for one circular arc, h = ρ − √(ρ² − a²), ρ = R + c1 + r1: no publication, the
 * table is derived by hand from that closed form.
 */
const foot = sectionProperties([
  { widthMm: 8.43, heightMm: 1 },
  { widthMm: 4, heightMm: 7 },
])
const bender = (spanMm: number, outerRollerRadiusMm: number): RollerBender => ({
  spanMm,
  outerRollerRadiusMm,
  bearsOn: 'foot',
  mode: 'rolled',
  maxPerPassMm: null,
  screwPitchMm: null,
})
const small = bender(80, 6)
const large = bender(100, 12.7)
const PRINTED = [
  [small, 600, 1.31242],
  [small, 1200, 0.66122],
  [small, 2438, 0.32679],
  [large, 600, 2.02955],
  [large, 1200, 1.02762],
  [large, 2438, 0.50924],
] as const

const rows: Row[] = PRINTED.flatMap(([rollers, radius, printed]): Row[] => [
  {
    what: `depth over a span of ${rollers.spanMm} at ${radius}`,
    printed,
    computed: arcDepthMm(foot, rollers, radius)!,
    within: 5e-6,
    label: 'derived',
  },
])

describe('the arc between the rollers', () => {
  it('agrees to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 6 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(6)
    expect(blindRows(rows)).toEqual([])
  })
})
