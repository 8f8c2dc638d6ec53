import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'

function tieLevelsOf(track: object, plan: object = {}) {
  const sent = { rail: { section: '250', material: 'brass' }, tracks: [{ name: 'main', ...track }], ...plan }
  const read = readPlan(sent)
  const result = read.ok ? estimate(read.plan, { parts: ['tieLevels'] }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate.tieLevels!
}

const STRAIGHT = [{ kind: 'tangent', length: 1000 }]
const ROADBED = { kind: 'trench', crownWidth: 200, depthUnderTie: 60, tie: { length: 90, width: 12, height: 10 } }

describe('the height of every tie', () => {
  it('follows the grade, at the spacing of the ties', () => {
    const { complete, ties } = tieLevelsOf({ elements: STRAIGHT, gradeLine: [{ at: 0, gradePct: 2 }] })
    expect(complete).toBe(true)
    expect(ties).toHaveLength(23)
    expect(ties[10]).toEqual({
      track: 'main',
      tie: 10,
      atMm: 450,
      elevationMm: expect.closeTo(9, 12),
      undersideMm: expect.closeTo(9, 12),
      groundMm: null,
      shimMm: null,
    })
  })

  it('is lower by rail and tie where there is a roadbed, and the ground tells what to fill or to cut (by hand)', () => {
    const ground = [
      { at: 90, elevation: -30 },
      { at: 540, elevation: 15 },
    ]
    const { ties } = tieLevelsOf({ elements: STRAIGHT, ground }, { roadbed: ROADBED })
    const below = 0.25 * 25.4 + 10
    expect(ties[0]!.groundMm).toBeNull()
    expect(ties[13]!.groundMm).toBeNull()
    expect(ties[2]).toMatchObject({
      groundMm: -30,
      undersideMm: expect.closeTo(-below, 12),
      shimMm: expect.closeTo(30 - below, 12),
    })
    expect(ties[7]).toMatchObject({ groundMm: expect.closeTo(-7.5, 12), shimMm: expect.closeTo(7.5 - below, 12) })
    expect(ties[12]!.shimMm).toBeCloseTo(-15 - below, 12)
  })

  it('of a loop are spread evenly round it', () => {
    const { ties } = tieLevelsOf({ closed: true, elements: [{ kind: 'arc', radius: 1000, angle: 360, turn: 'left' }] })
    expect(ties).toHaveLength(Math.ceil((2000 * Math.PI) / 45))
    expect(ties.at(-1)!.atMm).toBeCloseTo(2000 * Math.PI * (1 - 1 / ties.length), 8)
  })

  it('are those of new track alone, and no more than can be read', () => {
    expect(tieLevelsOf({ elements: STRAIGHT, state: 'existing' }).ties).toEqual([])
    const many = tieLevelsOf({ elements: STRAIGHT }, { supplies: { ties: { spacing: 0.01 } } })
    expect([many.complete, many.ties.length]).toEqual([false, 25_000])
  })

  it('are left out unless they are asked for', () => {
    const read = readPlan({
      rail: { section: '250', material: 'brass' },
      tracks: [{ name: 'main', elements: STRAIGHT }],
    })
    const result = read.ok ? estimate(read.plan) : read
    expect(result.ok && 'estimate' in result && Object.keys(result.estimate)).not.toContain('tieLevels')
  })
})
