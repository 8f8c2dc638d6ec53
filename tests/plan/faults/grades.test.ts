import { describe, expect, it } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import { readPlan } from '../../../src/estimate/read-plan.ts'
import type { GradePoint, TrackInput } from '../../../src/plan/rows/track.ts'
import { BRASS_250, planOf, straight } from '../../estimate/plans.ts'

const points = (...given: [number, number][]): GradePoint[] => given.map(([at, elevation]) => ({ at, elevation }))
const found = (...tracks: Partial<TrackInput>[]) =>
  planFaults({
    rail: BRASS_250,
    tracks: tracks.map((track, n) => ({ name: `t${n}`, elements: [straight(3000)], ...track })),
  }).map(({ path, code }) => `/${path.join('/')} ${code}`)

describe('grades steeper than 100 %', () => {
  it('are refused where they begin to be: by hand, 1000 mm over 1000 mm pass, 1000.1 mm do not', () => {
    expect(found({ gradeLine: points([0, 0], [1000, 1000], [2000, 0]) })).toEqual([])
    expect(found({ gradeLine: points([0, 0], [1000, 1000.1], [2000, 0.1]) })).toEqual([
      '/tracks/0/gradeLine/1/elevation out-of-range',
    ])
    expect(found({ gradeLine: points([0, 0], [1000, -1000.1]) })).toEqual([
      '/tracks/0/gradeLine/1/elevation out-of-range',
    ])
  })

  it('count from the elevation of the start', () => {
    expect(found({ start: { elevation: 500 }, gradeLine: points([100, 600]) })).toEqual([])
    expect(found({ start: { elevation: 500 }, gradeLine: points([100, 601]) })).toEqual([
      '/tracks/0/gradeLine/0/elevation out-of-range',
    ])
  })

  it('count from the end of the track before', () => {
    // By hand: the first track ends half-way between 0 and 2000, at 1000 mm.
    const first = { gradeLine: points([0, 0], [6000, 2000]) }
    const then = (elevation: number) => ({ start: { after: 't0' }, gradeLine: points([100, elevation]) })
    expect(found(first, then(1100))).toEqual([])
    expect(found(first, then(1101))).toEqual(['/tracks/1/gradeLine/0/elevation out-of-range'])
    const through = { start: { after: 't0' } }
    expect(found(first, through, { start: { after: 't1' }, gradeLine: points([100, 1101]) })).toEqual([
      '/tracks/2/gradeLine/0/elevation out-of-range',
    ])
  })

  it('say what is expected, and what to check', () => {
    const zigzag = Array.from({ length: 1_999 }, (_, n) => ({ at: 1.5 * n, elevation: n % 2 ? 1e7 : -1e7 }))
    const read = readPlan(planOf([straight(3000)], { gradeLine: zigzag }))
    expect(read.ok).toBe(false)
    const faults = read.ok ? [] : read.faults.filter(({ code }) => code === 'out-of-range')
    expect(faults).toHaveLength(1_998)
    expect(faults[0]).toMatchObject({
      path: ['tracks', 0, 'gradeLine', 1, 'elevation'],
      detail: expect.stringContaining('no grade may be over 100 %'),
      hint: expect.stringContaining('units'),
    })
  })
})
