import { describe, expect, it } from 'vitest'
import type { Metal } from '../../src/bending/metal.ts'
import { momentNmm, yieldCurvature } from '../../src/bending/moment-curvature.ts'
import { sectionProperties } from '../../src/bending/section-properties.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * F. P. Beer and E. R. Johnston, *Mechanics of Materials*, ch. 4: the moment of an elastic, perfectly plastic rectangle,
 * M/My = 1.5·(1 − ⅓·(ky/k)²), My = sy·b·h²/6. The ratios are worked out from the book's formula.
 */
const PRINTED = [
  [1.2, 1.152778],
  [1.5, 1.277778],
  [2, 1.375],
  [3, 1.444444],
  [5, 1.48],
] as const

const section = sectionProperties([{ widthMm: 10, heightMm: 3 }])
const metal: Metal = {
  youngsModulusMpa: 1e5,
  yieldMpa: 300,
  hardening: { model: 'perfectly-plastic' },
  elongationPct: null,
}
const yieldMoment = (300 * 3 * 10 ** 2) / 6
const at = (times: number) => momentNmm(section, metal, times * yieldCurvature(section, metal))

const rows: Row[] = [
  ...PRINTED.map(
    ([times, printed]): Row => ({
      what: `M/My at ${times} yield curvatures`,
      printed,
      computed: at(times) / yieldMoment,
      within: 5e-7,
      label: 'closed form',
    }),
  ),
  { what: 'shape factor', printed: 1.5, computed: section.shapeFactor, within: 1e-9, label: 'published' },
  { what: 'My', printed: yieldMoment, computed: at(1), within: 1e-6, label: 'closed form' },
]

describe('Beer and Johnston’s elastoplastic rectangle', () => {
  it('agrees to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 7 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(7)
    expect(blindRows(rows)).toEqual([])
  })
})
