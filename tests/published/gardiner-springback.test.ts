import { describe, expect, it } from 'vitest'
import type { Metal } from '../../src/bending/metal.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { restingRadiusMm } from '../../src/bending/springback.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * F. J. Gardiner, "The Springback of Metals", Trans. ASME 79 (1957): for a rectangle Ri/Rf = 4x³ − 3x + 1,
 * x = Ri·Y/(E·T). The ratios are worked out from the formula.
 */
const PRINTED = [
  [0.01, 0.970004],
  [0.05, 0.8505],
  [0.1, 0.704],
  [0.2, 0.432],
  [0.3, 0.208],
] as const

const YIELD = 250
const E = 100e3
const THICKNESS = 3
const metal: Metal = {
  youngsModulusMpa: E,
  yieldMpa: YIELD,
  hardening: { model: 'perfectly-plastic' },
  elongationPct: null,
}

function formedOverResting(x: number, widthMm: number): number {
  const formed = (x * E * THICKNESS) / YIELD
  const section = sectionProperties([{ widthMm: THICKNESS, heightMm: widthMm }])
  return formed / restingRadiusMm(section, metal, formed)!
}

const rows: Row[] = PRINTED.map(([x, printed]) => ({
  what: `Ri/Rf at x ${x}`,
  printed,
  computed: formedOverResting(x, 40),
  within: 5e-7,
  label: 'closed form',
}))

describe('Gardiner’s springback of a rectangle', () => {
  it('agrees to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 5 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(5)
    expect(blindRows(rows)).toEqual([])
  })

  it('does not depend on how wide the sheet is', () => {
    expect(formedOverResting(0.1, 1)).toBeCloseTo(formedOverResting(0.1, 700), 14)
  })
})
