import { describe, expect, test } from 'vitest'
import { levelReadings, levelTable } from '../../src/page/sheets/garden/levels.ts'
import { textOf } from './markup.ts'
import { worked } from './worked.ts'

const rail = { section: '250', material: 'brass', temper: 'half-hard' }
const trackOf = (track: object) =>
  worked({ rail, tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 6000 }], ...track }] } as never).estimate
    .tracks[0]!

describe('what a level must read', () => {
  const climb = trackOf({
    gradeLine: [
      { at: 0, gradePct: 2 },
      { at: 3000, gradePct: -1, verticalCurve: 1200 },
    ],
    levelsAt: [1000, 2400, 2800],
  })

  test('is the difference in height of its two ends', () => {
    const readings = levelReadings(climb, 1000)
    // By hand: 48 mm where the curve begins; in it y = 48 + 2 %·x − 3 %·x²/2400.
    const curve = (x: number) => 48 + 0.02 * x - (0.03 * x * x) / 2400
    const wanted = [
      [0, 20],
      [1000, 20],
      [2400, curve(1000) - 48],
      [2800, curve(1200) - 2 - curve(400)],
      [3600, -10],
      [6000, null],
    ]
    expect(readings.map(({ atMm }) => atMm)).toEqual(wanted.map(([atMm]) => atMm))
    for (const [n, { riseMm }] of readings.entries())
      if (wanted[n]![1] === null) expect(riseMm).toBeNull()
      else expect(riseMm).toBeCloseTo(wanted[n]![1]!, 9)
  })

  test('is printed with the end that the block is under', () => {
    const text = textOf(levelTable(climb, 'metric')!.toString())
    expect(text).toMatch(/20 mm near end/)
    expect(text).toMatch(/10 mm far end/)
    expect(textOf(levelTable(climb, 'feet')!.toString())).toContain('4-ft level')
  })

  test('is left out for a level track', () => {
    expect(levelTable(trackOf({}), 'metric')).toBeNull()
  })
})
