import { describe, expect, it } from 'vitest'
import { tiesUnder } from '../../src/laying/ties.ts'
import { blindRows, misses, type Row } from './rows.ts'

const INCH = 25.4
const FOOT = 304.8

/**
 * TI 850-02 / AFMAN 32-1125 (2000): 24 ties to a 39-ft rail are 19½ in apart, 3250 to a mile. Published; a mile of open
 * track has one tie more, at its end.
 */
const rows: Row[] = [
  {
    what: 'ties under 39 ft',
    printed: 24,
    computed: tiesUnder(39 * FOOT, 19.5 * INCH, false, 1).ties,
    within: 0,
    label: 'published',
  },
  {
    what: 'ties to a mile',
    printed: 3250,
    computed: tiesUnder(5280 * FOOT, 19.5 * INCH, false, 1).ties,
    within: 1,
    label: 'published',
  },
  {
    what: 'spacing in a loop of 39 ft',
    printed: 19.5,
    computed: tiesUnder(39 * FOOT, 19.5 * INCH, true, 0).tieSpacingMm / INCH,
    within: 0.005,
    label: 'derived',
  },
]

describe('tie counts', () => {
  it('agree with the manual', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all three, and a wrong one would show', () => {
    expect(rows).toHaveLength(3)
    expect(blindRows(rows.filter(({ within }) => within > 0))).toEqual([])
    expect(misses([{ ...rows[0]!, printed: 25 }])).toHaveLength(1)
  })
})
