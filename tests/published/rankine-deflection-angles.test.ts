import { describe, expect, it } from 'vitest'
import { deflectionAt, simpleCurve } from './curve-parts.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Setting out a simple curve by Rankine's deflection angles: worked example of surveying course notes, R 30 m, Δ 60°,
 * sub-chords of 7.32, 20 and 4.09 m, published in metres and minutes of arc. The notes carry the length on cut
 * to 31.41 (31.416).
 */
const curve = simpleCurve({ kind: 'arc', radius: 30, angle: 60, turn: 'left' })
const minutes = (at: number) => (deflectionAt(curve.placed, at) * 60 * 180) / Math.PI

const rows: Row[] = [
  { what: 'tangent', printed: 17.32, computed: curve.tangent, within: 0.005, label: 'published' },
  { what: 'length, cut after two places', printed: 31.41, computed: curve.length, within: 0.01, label: 'published' },
  { what: 'length', printed: 31.416, computed: curve.length, within: 0.0005, label: 'closed form' },
  { what: 'deflection of 7.32 m', printed: 419.4, computed: minutes(7.32), within: 0.1, label: 'published' },
  { what: 'deflection of 20 m', printed: 1145.9, computed: minutes(20), within: 0.1, label: 'published' },
  { what: 'deflection of 4.09 m', printed: 234.3, computed: minutes(4.09), within: 0.1, label: 'published' },
  // The sub-chords lie one behind the other: the last peg is seen under half of the whole angle.
  { what: 'deflection of all', printed: 1800, computed: minutes(curve.length), within: 1e-6, label: 'closed form' },
]

describe('Rankine’s deflection angles', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 7 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(7)
    expect(blindRows(rows)).toEqual([])
  })
})
