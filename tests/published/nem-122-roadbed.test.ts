import { describe, expect, it } from 'vitest'
import { type Bed, bedSection } from '../../src/laying/roadbed.ts'
import { RAISED_SLOPE, ROADBED } from '../../src/plan/rows/way.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * MOROP NEM 122 (2007), cross-section of the roadbed: tie a, ballast crown b, formation c, path d on either side of it;
 * the ballast's sides fall 1:1.25. Published.
 */
const TABLE = [
  { size: '0', a: 58, b: 76, c: 134, d: 18 },
  { size: 'I', a: 82, b: 106, c: 188, d: 26 },
] as const

const bed = (crownWidthMm: number, depthUnderTieMm: number): Bed => ({
  kind: 'raised',
  crownWidth: crownWidthMm,
  depthUnderTie: depthUnderTieMm,
  shoulderSlope: RAISED_SLOPE,
  filledTo: 'tie-bottom',
  tie: null,
})

/** Depth at which the sides reach the formation between its two paths: ((c − 2d) − b) / (2 · 1.25). Derived. */
const depthOf = ({ b, c, d }: (typeof TABLE)[number]) => (c - 2 * d - b) / 2.5

const rows: Row[] = [
  ...TABLE.map(
    (line): Row => ({
      what: `size ${line.size}: foot of the ballast and both paths make up the formation`,
      printed: line.c,
      computed: bedSection(bed(line.b, depthOf(line))).baseWidthMm + 2 * line.d,
      within: 0.5,
      label: 'published',
    }),
  ),
  {
    what: 'size I: ballast 12 mm deep, (106 + 136)/2 · 12',
    printed: 1452,
    computed: bedSection(bed(106, 12)).areaMm2,
    within: 0.5,
    label: 'derived',
  },
]

describe('NEM 122', () => {
  it('the section agrees', () => {
    expect(misses(rows)).toEqual([])
    expect(rows).toHaveLength(3)
    expect(blindRows(rows)).toEqual([])
  })

  it('its slope is the one assumed, and its crown is wider than its tie by a shoulder on either side', () => {
    expect(RAISED_SLOPE).toBe(1.25)
    for (const { a, b } of TABLE) expect(b - a).toBeGreaterThanOrEqual(18)
    expect(depthOf(TABLE[1])).toBe(12)
  })
})

it('MIL-HDBK-1005/6 §3.5: a shrinkage of 12 to 15 percent; the one assumed is among them. Published', () => {
  const assumedPct = ROADBED.fields.shrinkagePct.usual!.value
  expect(assumedPct).toBeGreaterThanOrEqual(12)
  expect(assumedPct).toBeLessThanOrEqual(15)
})
