import { readFileSync } from 'node:fs'

/**
 * Not a publication: forming radii for a rail of ASCE proportions 8.43 mm high, derived by an independent program (its
 * closed forms agree with its own quadrature to 1e-13), with the figures that go with them. `data/bending.json` carries
 * its own note.
 */
export interface Table {
  section: { w: number; h: number }[]
  A: number
  Iz: number
  c: number
  Zel: number
  Zpl: number
  shapeFactor: number
  rows: TableRow[]
}

export interface TableRow {
  material: string
  model: 'ro' | 'lin' | 'epp'
  E: number
  sy: number
  n: number | null
  Et: number | null
  Rf: number
  Rload: number
  M_Nmm: number
  strain_extreme: number
  residual_stress_extreme: number
}

export const table: Table = JSON.parse(readFileSync(new URL('data/bending.json', import.meta.url), 'utf8'))

/** The table's section, as the program takes one. */
export const rectangles = table.section.map(({ w, h }) => ({ widthMm: w, heightMm: h }))
