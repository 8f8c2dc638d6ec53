import { expect, test } from 'vitest'
import { pegsOf, pegTable } from '../../src/page/sheets/garden/pegs.ts'
import { formatHeading } from '../../src/page/show-length.ts'
import { textOf } from './markup.ts'
import { POND_PLAN } from './pond-plan.ts'
import { worked } from './worked.ts'

const rail = { section: '250', material: 'brass', temper: 'half-hard' }

test('pegs stand at tangent points, in the middle of curves and at an open end, with their heights', () => {
  const { tracks } = worked({
    rail,
    tracks: [
      {
        name: 'a',
        gradeLine: [
          { at: 0, elevation: 10 },
          { at: 1000, elevation: 30 },
        ],
        elements: [
          { kind: 'tangent', length: 1000 },
          { kind: 'arc', radius: 1000, angle: 90, turn: 'left' },
        ],
      },
    ],
  }).estimate
  const pegs = pegsOf(tracks[0]!, false)
  // By hand: a quarter of a circle of 1 m about (1000, 1000); its middle at 45°.
  const half = 1000 * Math.SQRT1_2
  const wanted = [
    [0, 0, 0, 10, 0],
    [1000, 1000, 0, 30, 0],
    [1000 + 250 * Math.PI, 1000 + half, 1000 - half, 30, 45],
    [1000 + 500 * Math.PI, 2000, 1000, 30, 90],
  ]
  expect(pegs).toHaveLength(4)
  for (const [n, { atMm, xMm, yMm, elevationMm, headingDeg }] of pegs.entries())
    for (const [k, value] of [atMm, xMm, yMm, elevationMm, headingDeg].entries())
      expect(value).toBeCloseTo(wanted[n]![k]!, 6)
  expect(textOf(pegTable(tracks[0]!, false, String, 'metric').toString())).toMatch(/middle of 1 .*end/)
})

test('a closed track has no peg at its end, and a level one says so once', () => {
  const [loop] = worked(POND_PLAN).estimate.tracks
  expect(pegsOf(loop!, true).every(({ element }) => element !== null)).toBe(true)
  const text = textOf(pegTable(loop!, true, String, 'metric').toString())
  expect(text).toContain('Level throughout')
  expect(text).not.toContain('Height')
})

test('a heading that rounds to a full turn is none', () => {
  expect([0, 359.99, 359.996].map(formatHeading)).toEqual(['0°', '359.99°', '0°'])
})
