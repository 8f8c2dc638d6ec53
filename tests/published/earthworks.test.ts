import { expect, test } from 'vitest'
import { worked } from '../estimate/worked.ts'
import { blindRows, misses, type Row } from './rows.ts'

/*
 * A railway embankment 150 m long, formation 11 m wide, side slopes 2 : 1, on ground that falls 1 in 50; the formation falls
 * 1 in 150 and is 0.5 m high at the start. By the prismoidal formula 3250 m³; end areas 6, middle 21 and 40 m²; by average end
 * areas it would be 3450 m³. Printed with its solution at curioustab.com, "Earthwork in railway embankment — prismoidal volume
 * with varying height" (civil engineering, estimating and costing, question 68568).
 */
const { earthworks } = worked({
  rail: { section: '250', material: 'brass' },
  supplies: { sticks: [{ length: 1_000_000 }] },
  tracks: [
    {
      name: 'embankment',
      elements: [{ kind: 'tangent', length: '150 m' }],
      gradeLine: [
        { at: 0, elevation: 500 },
        { at: 150_000, elevation: -500 },
      ],
      ground: [
        { at: 0, elevation: 0 },
        { at: 150_000, elevation: -3000 },
      ],
    },
  ],
  earthworks: { formationWidth: '11 m', fillSlope: 2, formationDepth: 0 },
}).tracks[0]!

const [embankment] = earthworks!.stretches

const ROWS: readonly Row[] = [
  { what: 'volume, m³', printed: 3250, computed: earthworks!.fillL / 1000, within: 0.5, label: 'published' },
  {
    what: 'height at the end, m',
    printed: 2.5,
    computed: embankment!.greatestMm / 1000,
    within: 0.05,
    label: 'published',
  },
  {
    what: 'area at the end, m²',
    printed: 40,
    computed: ((embankment!.widestMm + 11_000) / 2) * embankment!.greatestMm * 1e-6,
    within: 0.5,
    label: 'published',
  },
]

test('the volume of an embankment by the prismoidal formula', () => {
  expect(misses(ROWS)).toEqual([])
  expect(blindRows(ROWS)).toEqual([])
  expect(earthworks).toMatchObject({ cutL: 0, cutBarrows: 0 })
  expect(earthworks!.stretches).toHaveLength(1)
})
