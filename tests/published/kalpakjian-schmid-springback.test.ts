import { describe, expect, it } from 'vitest'
import type { Metal } from '../../src/bending/metal.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { restingRadiusMm } from '../../src/bending/springback.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * S. Kalpakjian and S. R. Schmid, *Manufacturing Engineering and Technology*, ch. 16, a problem from memory: 20-gauge
 * sheet, T 0.0359 in, bent to Ri 0.5 in; Y 40,000 psi, E 29e6 psi. The answer is derived from the book's formula.
 * Inches and psi throughout: the law knows no units.
 */
const T = 0.0359
const Ri = 0.5
const Y = 40_000
const E = 29e6
const metal: Metal = {
  youngsModulusMpa: E,
  yieldMpa: Y,
  hardening: { model: 'perfectly-plastic' },
  elongationPct: null,
}
const resting = restingRadiusMm(sectionProperties([{ widthMm: T, heightMm: 1 }]), metal, Ri)!

const rows: Row[] = [
  { what: 'x', printed: 0.01921, computed: (Ri * Y) / (E * T), within: 5e-7, label: 'derived' },
  { what: 'Ri/Rf', printed: 0.942397, computed: Ri / resting, within: 5e-7, label: 'derived' },
  { what: 'Rf, in', printed: 0.5306, computed: resting, within: 5e-5, label: 'derived' },
]

describe('Kalpakjian and Schmid’s 20-gauge sheet', () => {
  it('agrees to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 3 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(3)
    expect(blindRows(rows)).toEqual([])
  })
})
