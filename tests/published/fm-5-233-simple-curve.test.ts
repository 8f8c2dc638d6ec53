import { describe, expect, it } from 'vitest'
import { simpleCurve } from './curve-parts.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Simple curve of US Army FM 5-233, *Construction Surveying*, chapter 3: PI at 18+00, Δ 45°, D 15° by the arc
 * definition, feet. From memory; recomputed, the figures agree with each other.
 */
const radius = 5729.578 / 15
const curve = simpleCurve({ kind: 'arc', radius, angle: 45, turn: 'right' })
const PI_STATION = 1800

const row = (what: string, printed: number, computed: number): Row => ({
  what,
  printed,
  computed,
  within: 0.005,
  label: 'from memory',
})

const rows = [
  row('R', 381.97, 1 / Math.abs(curve.placed[0]!.startCurvature)),
  row('T', 158.22, curve.tangent),
  row('L', 300, curve.length),
  row('E', 31.47, curve.external),
  row('M', 29.08, curve.middleOrdinate),
  row('LC', 292.35, curve.longChord),
  row('PC', 1641.78, PI_STATION - curve.tangent),
  row('PT', 1941.78, PI_STATION - curve.tangent + curve.length),
]

describe('the simple curve of FM 5-233', () => {
  it('agrees to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 8 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(8)
    expect(blindRows(rows)).toEqual([])
  })
})
