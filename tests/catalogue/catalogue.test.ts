import { describe, expect, it } from 'vitest'
import { MATERIAL_SPELLINGS, MATERIALS } from '../../src/catalogue/materials.ts'
import { SECTIONS } from '../../src/catalogue/sections.ts'

describe('sections', () => {
  it('has each code once, highest first, the code being the height in thousandths of an inch', () => {
    const ids = SECTIONS.map(({ id }) => id)
    expect(ids).toEqual([...new Set(ids)])
    expect(ids).toEqual(expect.arrayContaining(['332', '250', '215', '148']))
    for (const { id, heightMm } of SECTIONS) expect(heightMm).toBeCloseTo((Number(id) * 25.4) / 1000, 12)
    expect(SECTIONS.map(({ heightMm }) => heightMm)).toEqual(
      SECTIONS.map(({ heightMm }) => heightMm).sort((a, b) => b - a),
    )
  })

  it('says of every row where it is from and what of it is an estimate', () => {
    for (const row of SECTIONS) {
      expect(row.source.length).toBeGreaterThan(10)
      expect(row.estimated).toBe(row.estimatedFields.includes('headWidthMm'))
      for (const field of row.estimatedFields) expect(row).toHaveProperty(field)
    }
    expect(SECTIONS.filter(({ estimated }) => estimated).map(({ id }) => id)).toEqual(['332', '215'])
  })

  it('its parts fit into one another', () => {
    for (const row of SECTIONS) {
      expect(row.webThicknessMm).toBeLessThan(row.headWidthMm)
      expect(row.headWidthMm).toBeLessThan(row.footWidthMm)
      expect(row.footWidthMm).toBeLessThanOrEqual(row.heightMm)
      expect(row.headDepthMm + row.footDepthMm).toBeLessThan(row.heightMm / 2)
    }
  })
})

describe('materials', () => {
  it('has the five metals of rail, each with a usual temper of its own', () => {
    expect(MATERIALS.map(({ id }) => id)).toEqual(['brass', 'stainless', 'aluminium', 'nickel-silver', 'steel'])
    for (const { tempers, usualTemper, source } of MATERIALS) {
      expect(tempers.map(({ id }) => id)).toContain(usualTemper)
      expect(new Set(tempers.map(({ id }) => id)).size).toBe(tempers.length)
      expect(source).not.toBe('')
    }
    expect(MATERIAL_SPELLINGS).toEqual({ aluminum: 'aluminium' })
  })

  it('counts the tempers of each, and calls a metal an estimate where all of them are', () => {
    const said = MATERIALS.map(({ id, source, estimated }) => [id, source.split(',')[0], estimated])
    expect(said).toEqual([
      ['brass', '4 tempers', false],
      ['stainless', '3 tempers', false],
      ['aluminium', '3 tempers', false],
      ['nickel-silver', '1 temper', true],
      ['steel', '1 temper', false],
    ])
  })

  it('says of every temper which of its figures are estimates', () => {
    const all = ['youngsModulusGpa', 'yieldMpa', 'tensileMpa', 'elongationPct']
    all.push('expansionPerK', 'densityKgM3', 'resistivityOhmM', 'rambergOsgoodN')
    const estimated = MATERIALS.flatMap(({ id, tempers }) =>
      tempers.map((row) => [`${id} ${row.id}`, [...row.estimatedFields]] as const),
    )
    // The exponent of every other temper is an estimate too, and nothing else of it.
    expect(Object.fromEntries(estimated.filter(([, fields]) => fields.length > 1))).toEqual({
      'brass annealed': all,
      'brass extruded': ['youngsModulusGpa', 'rambergOsgoodN'],
      'stainless annealed': ['yieldMpa', 'tensileMpa', 'elongationPct', 'rambergOsgoodN'],
      'stainless quarter-hard': ['elongationPct', 'rambergOsgoodN'],
      'stainless 316-annealed': ['youngsModulusGpa', 'yieldMpa', 'elongationPct', 'rambergOsgoodN'],
      'nickel-silver half-hard': all,
    })
    for (const row of MATERIALS.flatMap(({ tempers }) => tempers)) {
      expect(row.estimated).toBe(row.estimatedFields.length === all.length)
      for (const field of row.estimatedFields) expect(row).toHaveProperty(field)
    }
  })

  it('keeps every figure within what metals are', () => {
    for (const row of MATERIALS.flatMap(({ tempers }) => tempers)) {
      expect(row.source).not.toBe('')
      expect(row.yieldMpa).toBeLessThan(row.tensileMpa)
      expect(row.youngsModulusGpa).toBeGreaterThan(60)
      expect(row.densityKgM3).toBeGreaterThan(2600)
      expect(row.expansionPerK).toBeGreaterThan(10e-6)
      expect(row.expansionPerK).toBeLessThan(25e-6)
      expect(row.resistivityOhmM).toBeGreaterThan(2e-8)
      expect(row.resistivityOhmM).toBeLessThan(80e-8)
      expect(row.rambergOsgoodN).toBeGreaterThanOrEqual(4)
    }
  })
})
