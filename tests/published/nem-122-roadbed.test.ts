import { describe, expect, it } from 'vitest'
import { planFaults } from '../../src/estimate/faults/faults.ts'
import { type Bed, bedSection } from '../../src/laying/roadbed.ts'
import { RAISED_SLOPE, ROADBED } from '../../src/plan/rows/ballast-power-extras.ts'
import { planOf, straight } from '../estimate/plans.ts'
import { blindRows, misses, type Row } from './rows.ts'

interface Size {
  readonly size: string
  readonly scale: number
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
}

/**
 * MOROP NEM 122 (2007), cross-section of the roadbed, mm: tie a, crown of the ballast b, formation c, path d on either side
 * of the ballast, whose sides fall 1:1.25. Scales of the sizes: NEM 010. Published. Smaller sizes are rounded too
 * coarsely to compare; in the row of size II ballast and paths do not make up the formation.
 */
const TABLE: readonly Size[] = [
  { size: 'S', scale: 64, a: 40, b: 52, c: 94, d: 13 },
  { size: '0', scale: 45, a: 58, b: 76, c: 134, d: 18 },
  { size: 'I', scale: 32, a: 82, b: 106, c: 188, d: 26 },
]

const bed = (crownWidthMm: number, depthUnderTieMm: number): Bed => ({
  kind: 'raised',
  crownWidth: crownWidthMm,
  depthUnderTie: depthUnderTieMm,
  shoulderSlope: RAISED_SLOPE,
  filledTo: 'tie-bottom',
  tie: null,
})

/**
 * One bed in every size: that of size I, whose sides come down by ((c − 2d) − b) / 2 / 1.25, and to scale as deep and with
 * as wide a shoulder beside the ties in the others. Each printed number stands for half a millimetre either way.
 */
function rowsOf(table: readonly Size[]): Row[] {
  const largest = table.at(-1)!
  const depthMm = (largest.c - 2 * largest.d - largest.b) / 2 / 1.25
  const shoulderMm = (largest.b - largest.a) / 2
  return table.slice(0, -1).flatMap(({ size, scale, a, b, c, d }): Row[] => {
    const share = largest.scale / scale
    return [
      {
        what: `size ${size}: foot of the ballast and both paths make up the formation`,
        printed: c,
        computed: bedSection(bed(b, depthMm * share)).baseWidthMm + 2 * d,
        within: 1.5,
        label: 'published',
      },
      {
        what: `size ${size}: ties and a shoulder on either side make up the crown`,
        printed: b,
        computed: a + 2 * shoulderMm * share,
        within: 1.5,
        label: 'published',
      },
    ]
  })
}

const rows: Row[] = [
  ...rowsOf(TABLE),
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
    expect(rows).toHaveLength(5)
    expect(blindRows(rows)).toEqual([])
  })

  it('any of its twelve numbers a tenth off would show', () => {
    const unseen = TABLE.flatMap((line, at) =>
      (['a', 'b', 'c', 'd'] as const).flatMap((column) =>
        [0.9, 1.1]
          .filter((factor) => {
            const falsified = TABLE.with(at, { ...line, [column]: factor * line[column] })
            return misses(rowsOf(falsified)).length === 0
          })
          .map((factor) => `${line.size} ${column} × ${factor}`),
      ),
    )
    expect(unseen).toEqual([])
  })

  it('its slope is the one assumed', () => {
    expect(RAISED_SLOPE).toBe(1.25)
  })

  it('its crowns hold its ties; narrower than the ties they would be refused', () => {
    const faultsOf = (crownWidth: number, length: number) => {
      const roadbed = { kind: 'raised', crownWidth, depthUnderTie: 12, tie: { length, width: 8, height: 5 } } as const
      return planFaults(planOf([straight(1000)], {}, { roadbed })).map(({ path }) => path.join('/'))
    }
    for (const { a, b } of TABLE) {
      expect(faultsOf(b, a)).toEqual([])
      expect(faultsOf(a, b)).toEqual(['roadbed/crownWidth'])
    }
  })
})

it('MIL-HDBK-1005/6 §3.5: a shrinkage of 12 to 15 percent; the one assumed is among them. Published', () => {
  const assumedPct = ROADBED.fields.shrinkagePct.usual!.value
  expect(assumedPct).toBeGreaterThanOrEqual(12)
  expect(assumedPct).toBeLessThanOrEqual(15)
})
