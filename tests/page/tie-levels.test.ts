import { describe, expect, test } from 'vitest'
import { PARTS_ON_GROUND } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { tieLevelTables } from '../../src/page/sheets/garden/tie-levels.ts'
import type { LengthsIn } from '../../src/page/show-length.ts'
import { textOf } from './markup.ts'

/** Ties of a 3-m climb of 2 %, 100 mm apart, over level ground at 30 mm. */
function tableOf(track: object = {}, lengthsIn: LengthsIn = 'metric', lengthMm = 3000): string | null {
  const read = readPlan({
    rail: { section: '250', material: 'brass', temper: 'half-hard' },
    supplies: { ties: { spacing: 100 } },
    tracks: [
      {
        name: 'hill',
        gradeLine: [{ at: 0, gradePct: 2 }],
        ground: [
          { at: 0, elevation: 30 },
          { at: lengthMm, elevation: 30 },
        ],
        elements: [{ kind: 'tangent', length: lengthMm }],
        ...track,
      },
    ],
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const worked = estimate(read.plan, { parts: PARTS_ON_GROUND })
  if (!worked.ok) throw new Error(JSON.stringify(worked.faults))
  return tieLevelTables(worked.estimate, lengthsIn)?.toString() ?? null
}

describe('the ties of a graded track with its ground', () => {
  test('are ten to a row, each with its height and what to fill or cut (by hand)', () => {
    const rows = tableOf()!.split('<tr>').slice(2).map(textOf)
    expect(rows).toHaveLength(4)
    // The tenth tie is at 900 mm, 18 mm up and 12 mm below the ground; the thirtieth at 2.9 m, 58 mm up, 28 mm above it.
    expect(rows[0]).toMatch(/^0 ?0\.000 m/)
    expect(rows[0]).toContain('18 −12')
    expect(rows[2]).toContain('58 +28')
    expect(rows[3]).toContain('60 +30')
  })

  test('are in hundredths of an inch where lengths are in feet', () => {
    const text = textOf(tableOf({}, 'feet')!)
    expect(text).toContain(`${(18 / 25.4).toFixed(2)} −${(12 / 25.4).toFixed(2)}`)
    expect(text).not.toMatch(/mm|metre/)
  })

  test('are left out where the track is level, or gives no ground', () => {
    expect(tableOf({ gradeLine: [] })).toBeNull()
    expect(tableOf({ ground: [] })).toBeNull()
  })

  test('are in a table of their own where there are more than 600', () => {
    const many = tableOf({}, 'metric', 60_100)!
    expect(many).not.toContain('<table')
    expect(textOf(many)).toContain('tie-levels')
    expect(tableOf({}, 'metric', 59_900)).toContain('<table')
  })
})
