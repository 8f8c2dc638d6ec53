import { describe, expect, it } from 'vitest'
import { SECTIONS } from '../../src/catalogue/sections.ts'
import { blindRows, misses, type Row } from './rows.ts'

/** NMRA RP-15.1, *Rail*: height, base and head width in inches. */
const PRINTED = [
  ['297', 0.297, 0.25, 0.125],
  ['250', 0.25, 0.224, 0.112],
  ['208', 0.208, 0.188, 0.094],
  ['148', 0.148, 0.132, 0.066],
  ['125', 0.125, 0.125, 0.063],
  ['100', 0.1, 0.09, 0.045],
] as const

const rows: Row[] = PRINTED.flatMap(([code, height, base, head]) => {
  const section = SECTIONS.find(({ id }) => id === code)!
  const row = (what: string, printed: number, mm: number): Row => ({
    what: `${code} ${what}`,
    printed,
    computed: mm / 25.4,
    within: 0.0005,
    label: 'published',
  })
  return [
    row('height', height, section.heightMm),
    row('base', base, section.footWidthMm),
    row('head', head, section.headWidthMm),
  ]
})

describe('rail sections of RP-15.1', () => {
  it('are in the catalogue as printed', () => {
    expect(misses(rows)).toEqual([])
    expect(rows).toHaveLength(18)
    expect(blindRows(rows)).toEqual([])
  })

  it('the codes it does not have are marked as estimates, between its neighbours’ proportions', () => {
    const shares = PRINTED.map(([, height, base, head]) => [base / height, head / height] as const)
    const among = (share: number, all: readonly number[]) => {
      expect(share).toBeGreaterThanOrEqual(Math.min(...all) - 0.0005)
      expect(share).toBeLessThanOrEqual(Math.max(...all) + 0.0005)
    }
    for (const code of ['332', '215']) {
      const section = SECTIONS.find(({ id }) => id === code)!
      expect(section.estimated).toBe(true)
      among(
        section.footWidthMm / section.heightMm,
        shares.slice(0, 3).map(([base]) => base),
      )
      among(
        section.headWidthMm / section.heightMm,
        shares.slice(0, 3).map(([, head]) => head),
      )
    }
  })
})
