import { describe, expect, it } from 'vitest'
import type { CustomMetal } from '../../src/plan/rows/rail.ts'
import { arc, estimateOf, planOf } from '../estimate/plans.ts'
import { type TableRow, table } from './bending-table.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * The table of `bending-table.test.ts` (derived by an independent program; a rail of ASCE proportions 8.43 mm high, three
 * hardening laws), asked of a whole plan: the curve is drawn so that its outer rail has the table's wanted radius.
 */
const HEAD_MM = table.section.at(-1)!.w
const SECTION = { rectangles: table.section.map(({ w, h }) => ({ width: w, height: h })) }

function metalOf({ model, E, sy, n, Et }: TableRow): CustomMetal {
  const hardening = {
    ro: { model: 'ramberg-osgood', n: n! },
    lin: { model: 'linear', tangentModulusGpa: Et! / 1000 },
    epp: { model: 'perfectly-plastic' },
  } as const
  return { youngsModulusGpa: E / 1000, yieldMpa: sy, hardening: hardening[model] }
}

const rows: Row[] = table.rows.flatMap((row) => {
  const rail = { section: SECTION, material: metalOf(row) }
  const trackRadiusMm = row.Rf - (45 + HEAD_MM) / 2
  const { forming } = estimateOf(planOf([arc(trackRadiusMm, 60)], {}, { rail })).bends[0]!
  const one = (what: string, printed: number, computed: number): Row => ({
    what: `${row.material} ${row.model} at ${row.Rf}: ${what}`,
    printed,
    computed,
    within: 1e-6 * Math.abs(printed),
    label: 'derived',
  })
  return [
    one('forming radius', row.Rload, forming.formingRadiusMm!),
    one('moment', row.M_Nmm, forming.momentNm! * 1000),
    one('strain', row.strain_extreme, forming.maxStrainPct! / 100),
    one('residual stress', row.residual_stress_extreme, forming.residualStressMpa!),
  ]
})

describe('forming radii of a plan', () => {
  it('agree with the independent table to 1e-6', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares four numbers of all 60 rows, and a wrong one would show', () => {
    expect(rows).toHaveLength(240)
    expect(blindRows(rows)).toEqual([])
  })
})
