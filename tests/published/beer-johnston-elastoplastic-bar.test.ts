import { describe, expect, it } from 'vitest'
import type { Metal } from '../../src/bending/metal.ts'
import { momentNmm, yieldCurvature } from '../../src/bending/moment-curvature.ts'
import { rootBetween } from '../../src/bending/numeric/root.ts'
import { residualStress } from '../../src/bending/residual-stress.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { restingRadiusMm } from '../../src/bending/springback.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * F. P. Beer and E. R. Johnston, *Mechanics of Materials*, Examples 4.05 and 4.06, from memory and worked again: a bar
 * 50 × 120 mm, bent the stiff way by 36.8 kN·m and let go; yield 240 MPa, E 200 GPa, perfectly plastic.
 */
const section = sectionProperties([{ widthMm: 120, heightMm: 50 }])
const metal: Metal = {
  youngsModulusMpa: 200e3,
  yieldMpa: 240,
  hardening: { model: 'perfectly-plastic' },
  elongationPct: null,
}
const atYield = yieldCurvature(section, metal)
const loaded = rootBetween((k) => momentNmm(section, metal, k) - 36.8e6, atYield, 10 * atYield)
const residual = residualStress(section, metal, loaded)
const KNM = 1e6
const METRES = 1000

const rows: Row[] = [
  { what: 'My, kN·m', printed: 28.8, computed: momentNmm(section, metal, atYield) / KNM, within: 0.05 },
  { what: 'half-depth of the elastic core, mm', printed: 40, computed: 240 / 200e3 / loaded, within: 0.05 },
  { what: 'radius under load, m', printed: 33.3, computed: 1 / loaded / METRES, within: 0.05 },
  { what: 'residual stress at the face, MPa', printed: -66.7, computed: residual.atFaceMpa, within: 0.05 },
  // Printed from rounded intermediate figures; 35.556 without.
  { what: 'residual stress inside, MPa', printed: 35.5, computed: residual.insideMpa, within: 0.1 },
  { what: 'where it stands, mm', printed: 40, computed: residual.insideAtMm, within: 0.05 },
  {
    what: 'permanent radius, m',
    printed: 225,
    computed: restingRadiusMm(section, metal, 1 / loaded)! / METRES,
    within: 0.5,
  },
].map((row) => ({ ...row, label: 'from memory' }))

describe('Beer and Johnston’s bar, Examples 4.05 and 4.06', () => {
  it('agrees to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 7 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(7)
    expect(blindRows(rows)).toEqual([])
  })

  it('unloads without yielding backwards', () => {
    expect(residual.unloadsElastically).toBe(true)
  })
})
