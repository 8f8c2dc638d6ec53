import { describe, expect, test } from 'vitest'
import { profileDrawing, profiledTrack } from '../../src/page/drawing/profile.ts'
import { formOfPlan, planOfForm } from '../../src/page/form/plan-form.ts'
import { earthworkTables } from '../../src/page/sheets/garden/earthworks.ts'
import { csvOf } from '../../src/paper/csv.ts'
import { ESTIMATE_TABLES } from '../../src/paper/estimate-tables.ts'
import { workbookTables } from '../../src/paper/workbook-tables.ts'
import { worked } from '../estimate/worked.ts'
import { nestingFault, textOf } from './markup.ts'

const PLAN = {
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: 'main',
      elements: [{ kind: 'tangent', length: 8000 }],
      ground: [
        { at: 0, elevation: 0 },
        { at: 4000, elevation: 200 },
        { at: 8000, elevation: -200 },
      ],
    },
  ],
  earthworks: { barrowL: 60, swellPct: 0 },
}
const FLAT = { rail: PLAN.rail, tracks: [{ name: 'main', elements: PLAN.tracks[0]!.elements }] }

describe('cut and fill', () => {
  // By hand: (250·6000·100 + 6000·200²/3) mm³ and (250·2000·100 + 1.5·2000·200²/3) mm³, in barrows of 60 L.
  test('on the garden sheet', () => {
    const sheet = earthworkTables(worked(PLAN).tracks, 'metric')!.toString()
    expect(nestingFault(sheet, true)).toBeNull()
    const text = textOf(sheet)
    for (const part of ['230 L', '4', '6.000 m', '90 L', '2 barrow loads', 'higher']) expect(text).toContain(part)
    expect(earthworkTables(worked(FLAT).tracks, 'metric')).toBeNull()
  })

  test('as a table, and as a sheet of the workbook', () => {
    const { columns, rows } = ESTIMATE_TABLES.earthworks(worked(PLAN), 'mm')
    expect(columns.map(({ key }) => key)).toEqual([
      'track',
      'kind',
      'fromMm',
      'toMm',
      'volumeL',
      'barrows',
      'greatestMm',
      'greatestAtMm',
      'widestMm',
    ])
    expect(rows.map((row) => row.slice(0, 4))).toEqual([
      ['main', 'cut', 0, 6000],
      ['main', 'fill', 6000, 8000],
    ])
    expect(csvOf(ESTIMATE_TABLES.earthworks(worked(PLAN), 'mm')).split(/\r?\n/)[1]).toContain(
      'main,cut,0,6000,230,4,200,4000,650',
    )
    const titles = (plan: object) => workbookTables(worked(plan), 'mm').map(({ title }) => title)
    expect(titles(PLAN)).toContain('Earthworks')
    expect(titles(FLAT)).not.toContain('Earthworks')
  })

  test('as a dashed line in the profile, which is drawn for level track too', () => {
    const svg = profileDrawing(profiledTrack(worked(PLAN).tracks[0]!), 'p', 'metric')!.toString()
    expect(nestingFault(svg, true)).toBeNull()
    // Three points of the ground, the middle one highest: the smallest y of all.
    const ground = /class="ground" d="([^"]+)"/.exec(svg)![1]!
    const ys = [...ground.matchAll(/[\d.]+ ([\d.]+)/g)].map(([, y]) => Number(y))
    expect(ys).toHaveLength(3)
    expect(ys[1]).toBe(Math.min(...ys))
    expect(textOf(svg)).toContain('dashed: the ground')
    expect(profileDrawing(profiledTrack(worked(FLAT).tracks[0]!), 'p', 'metric')).toBeNull()
  })

  test('in the form and back', () => {
    const back = planOfForm(formOfPlan(PLAN)) as typeof PLAN
    expect(worked(back)).toEqual(worked(PLAN))
  })
})
