import { describe, expect, it } from 'vitest'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { ElementInput, TrackInput } from '../../src/plan/rows/track.ts'
import { arc, BRASS_250, easement, estimateOf, planOf, straight } from '../estimate/plans.ts'

const crossings = (plan: PlanInput) => estimateOf(plan).findings.filter(({ rule }) => rule === 'self-crossing')

function tracks(...list: (Partial<TrackInput> & { elements: ElementInput[] })[]): PlanInput {
  return planOf([], {}, { tracks: list.map((track, index) => ({ name: `t${index + 1}`, ...track })), rail: BRASS_250 })
}

describe('self-crossing', () => {
  it('a loop over its own lead is a stop, with both places (by hand)', () => {
    // East 2000, then 270° to the left: the circle's centre is (2000, 1000), it ends at (1000, 1000) heading south, and
    // crosses the x axis at (1000, 0) after 1000 mm of the last straight.
    const quarter = 500 * Math.PI
    const found = crossings(planOf([straight(2000), arc(1000, 270), straight(1500)]))
    expect(found).toMatchObject([{ severity: 'stop', track: 'main', element: 0, measured: 0, limit: 100, unit: 'mm' }])
    expect(found[0]!.message).toContain('at 1000 mm from its start it meets its own element 3')
    expect(found[0]!.message).toContain(`at ${(2000 + 3 * quarter + 1000).toFixed(0)} mm`)
  })

  it('with enough height it is none; 100 mm is enough', () => {
    const loop = [straight(2000), arc(1000, 270), straight(1500)]
    const way = 3 * 500 * Math.PI + 2000
    const climbing = (heightMm: number) =>
      crossings(
        planOf(loop, {
          gradeLine: [
            { at: 1000, elevation: 0 },
            { at: 1000 + way, elevation: heightMm },
          ],
        }),
      )
    expect(climbing(100)).toEqual([])
    expect(climbing(99)).toMatchObject([{ measured: expect.closeTo(99, 6) }])
  })

  it('two tracks that cross are named; an open end on or near another track is no crossing', () => {
    const line = { elements: [straight(2000)] }
    const across = { start: { x: 500, y: -400, heading: 90 }, elements: [straight(1000)] }
    expect(crossings(tracks(line, across))).toMatchObject([{ track: 't1', element: 0 }])
    expect(crossings(tracks(line, across))[0]!.message).toContain('t1 crosses t2 at the same height')
    expect(crossings(tracks(line, { ...across, start: { x: 500, y: 0, heading: 90 } }))).toEqual([])
    expect(crossings(tracks(line, { ...across, start: { x: 500, y: -400, heading: 90, elevation: 100 } }))).toEqual([])
    expect(crossings(tracks(line, { ...across, state: 'existing' }))).toHaveLength(1)
    expect(crossings(tracks(line, { ...across, state: 'lifted' }))).toEqual([])
  })

  it('a figure of eight crosses once', () => {
    // Both loops turn 270°; the straights between them cross at right angles where the track starts and ends.
    const eight = [straight(1000), arc(1000, 270), straight(2000), arc(1000, 270, 'right'), straight(1000)]
    expect(crossings(planOf(eight, { closed: true }))).toHaveLength(1)
  })

  it('sound loops, spirals, S curves and lines that continue each other are none', () => {
    const half = arc(1500, 180)
    expect(crossings(planOf([straight(3000), half, straight(3000), half], { closed: true }))).toEqual([])
    expect(crossings(planOf([arc(1500, 360)], { closed: true }))).toEqual([])
    expect(crossings(planOf([arc(1500, 90), arc(1500, 90), arc(1500, 180)], { closed: true }))).toEqual([])
    expect(crossings(planOf([straight(500), easement(800), arc(1500, 200), easement(800), straight(500)]))).toEqual([])
    expect(crossings(planOf([arc(1500, 90), arc(1500, 90, 'right'), straight(9), straight(3), arc(900, 30)]))).toEqual(
      [],
    )
    const second = { start: { x: 2000, y: 0, heading: 0 }, elements: [straight(500)] }
    expect(crossings(tracks({ elements: [straight(2000)] }, second))).toEqual([])
  })

  it('more than a turn on the level lies on itself; a helix that climbs 100 mm a turn does not', () => {
    expect(crossings(planOf([straight(500), arc(1000, 400), straight(500)])).length).toBeGreaterThanOrEqual(1)
    const turn = 2000 * Math.PI
    const helix = (riseMm: number) => {
      const gradeLine = [
        { at: 0, elevation: 0 },
        { at: 3 * turn, elevation: 3 * riseMm },
      ]
      return crossings(planOf([arc(1000, 1080)], { gradeLine }))
    }
    expect(helix(100.01)).toEqual([])
    expect(helix(99).length).toBeGreaterThanOrEqual(1)
  })

  it('two tracks on each other are found once for each stretch', () => {
    const line = { elements: [straight(2000)] }
    expect(crossings(tracks(line, { ...line, start: { x: 500, y: 0, heading: 0 } }))).toMatchObject([
      { track: 't1', element: 0, measured: 0 },
    ])
  })

  it('turned over, left for right, and moved, a plan has as many (mirrored)', () => {
    for (const turn of ['left', 'right'] as const)
      for (const heading of [0, 33, 179.5, -90])
        expect(
          crossings(
            planOf([straight(2000), arc(1000, 270, turn), straight(1500)], { start: { x: 1e5, y: -3e4, heading } }),
          ),
        ).toHaveLength(1)
  })

  it('thousands of elements take a bounded time, and what is not looked for is said', () => {
    const grid = tracks(
      ...Array.from({ length: 30 }, (_, index) => ({
        start: { x: 0, y: index * 100, heading: 0 },
        elements: [straight(4000)],
      })),
      ...Array.from({ length: 30 }, (_, index) => ({
        start: { x: index * 100 + 50, y: -50, heading: 90 },
        elements: [straight(4000)],
      })),
    )
    expect(crossings(grid)).toHaveLength(50)
    expect(estimateOf(grid).findings.filter(({ rule }) => rule === 'not-checked')).toHaveLength(1)
  })
})
