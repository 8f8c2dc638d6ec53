import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { settingOut } from '../../src/estimate/questions/setting-out.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { TrackInput } from '../../src/plan/rows/track.ts'
import { elements } from '../track/tracks.ts'
import { arc, BRASS_250, estimateOf, straight } from './plans.ts'

const planWith = (...tracks: TrackInput[]): PlanInput => ({
  rail: BRASS_250,
  tracks,
  standards: { longestCar: 100, minimumRadius: 100 },
})
const OLD: TrackInput = {
  name: 'old line',
  state: 'existing',
  start: { x: 500, y: -200, heading: 30, elevation: 40 },
  gradeLine: [{ at: 3000, elevation: 70 }],
  elements: [straight(2000), arc(1000, 90)],
}

describe('a track that continues from another', () => {
  it('starts where that one ends, with its heading and elevation (by hand)', () => {
    const { tracks } = estimateOf(
      planWith({ name: 'new', start: { after: 'old line' }, elements: [straight(1000)] }, OLD),
    )
    const [track] = tracks
    // 500 + 2000·cos 30° − 1000·sin 30° + 1000·sin 120°, and so on; 40 + 30 at station 3000 and level from there.
    const [cos, sin] = [Math.sqrt(3) / 2, 1 / 2]
    const [x, y] = [500 + 2000 * cos + 1000 * (cos - sin), -200 + 2000 * sin + 1000 * (cos + sin)]
    expect(track!.start.xMm).toBeCloseTo(x, 8)
    expect(track!.start.yMm).toBeCloseTo(y, 8)
    expect(track!.start.headingDeg).toBeCloseTo(120, 10)
    expect(track!.start.elevationMm).toBe(70)
    expect(track!.end.xMm).toBeCloseTo(x - 500, 8)
    expect(track!.end.elevationMm).toBe(70)
  })

  it('shares a tie and is joined with it: one tie fewer and two joints more than alone', () => {
    const alone = estimateOf(planWith({ name: 'new', elements: [straight(1000)] })).tracks[0]!
    const continued = estimateOf(
      planWith(OLD, { name: 'new', start: { after: 'old line' }, elements: [straight(1000)] }),
    )
    expect(continued.tracks[1]).toMatchObject({ ties: alone.ties - 1, joints: alone.joints + 2 })
    expect(continued.assumptions).toContainEqual({
      field: '/tracks/1/start',
      value: 'one tie fewer, two joints more',
      reason: 'the start of new runs into old line: they share a tie and are joined',
    })
    expect(continued.assumptions.filter(({ value }) => value.startsWith('x 0'))).toEqual([])
  })

  it('gives the same estimate as the same track with those coordinates', () => {
    fc.assert(
      fc.property(elements, elements, (first, second) => {
        const one: TrackInput = { name: 'one', state: 'existing', elements: first }
        const [placed] = estimateOf(planWith(one)).tracks
        const { xMm: x, yMm: y, headingDeg: heading, elevationMm: elevation } = placed!.end
        const chained = estimateOf(
          planWith(one, { name: 'two', start: { after: 'one' }, state: 'existing', elements: second }),
        )
        const written = estimateOf(
          planWith(one, { name: 'two', start: { x, y, heading, elevation }, state: 'existing', elements: second }),
        )
        expect(chained.tracks).toEqual(written.tracks)
        expect(chained.extent).toEqual(written.extent)
      }),
      { numRuns: 25 },
    )
  })

  it('in a chain of two hundred, listed backwards, each starts where the one before ends', () => {
    const chain = Array.from(
      { length: 200 },
      (_, n): TrackInput => ({
        name: `track ${n}`,
        state: 'existing',
        elements: [straight(10)],
        ...(n > 0 && { start: { after: `track ${n - 1}` } }),
      }),
    )
    const { tracks, extent } = estimateOf(planWith(...chain.toReversed()))
    expect(tracks[0]!.start.xMm).toBeCloseTo(1990, 9)
    expect(extent).toEqual({ minXMm: 0, maxXMm: expect.closeTo(2000, 9), minYMm: 0, maxYMm: 0 })
  })

  it('is set out there too', () => {
    const plan = planWith(
      { name: 'a', elements: [straight(700)] },
      { name: 'b', start: { after: 'a' }, elements: [arc(1000, 90)] },
    )
    expect(settingOut(plan).tracks[1]!.curves[0]!.pegs[0]).toMatchObject({ xMm: 700, yMm: 0, headingDeg: 0 })
  })
})

describe('an end that is held', () => {
  const ending = (end: TrackInput['end'], more: Partial<TrackInput> = {}) =>
    estimateOf(planWith({ name: 'main', elements: [straight(3000)], end, ...more }))
  const closures = ({ findings }: ReturnType<typeof ending>) => findings.filter(({ rule }) => rule === 'closure')

  it('answers how far it misses its place; what is not required is null', () => {
    const exact = ending({ at: { x: 3000, y: 0 } })
    expect(exact.tracks[0]!.closure).toEqual({ gapMm: 0, headingDeg: null, elevationMm: null })
    expect(closures(exact)).toEqual([])
    // by hand: 3 and 4 make 5
    const missed = ending({ at: { x: 2997, y: 4, heading: 350, elevation: 25 } })
    expect(missed.tracks[0]!.closure).toEqual({
      gapMm: 5,
      headingDeg: expect.closeTo(10, 10),
      elevationMm: -25,
    })
    expect(closures(missed).map(({ message, measured }) => [message, measured])).toEqual([
      ['The end misses its place by 5 mm; the joints can take up 2 mm.', 5],
      ['The track turns 10.00° too far to the left to meet its place; 0.5° can be taken up.', expect.closeTo(10, 9)],
      ['The end is 25 mm below its place.', 25],
    ])
  })

  it('is within the same tolerances as a closed track', () => {
    expect(closures(ending({ at: { x: 2998, y: 0, heading: 0.5, elevation: 2 } }))).toEqual([])
    expect(closures(ending({ at: { x: 2997.9, y: 0 } }))).toMatchObject([
      { severity: 'warn', measured: expect.closeTo(2.1, 9) },
    ])
    // 0.1 % of 3000 mm is 3 mm
    expect(closures(ending({ at: { x: 2996.9, y: 0 } }))).toMatchObject([{ severity: 'stop' }])
  })

  it('has a cure that brings it there (by hand: a straight along the gap)', () => {
    expect(closures(ending({ at: { x: 3100, y: 0 } }))[0]!.cure).toBe('Make element 1 3100 mm long instead of 3000 mm.')
    const grade = closures(ending({ at: { x: 3000, y: 0, elevation: 60 } }))[0]!
    expect(grade.cure).toBe('Bring the grade line to 60 mm at the end of the track.')
  })

  it('at the start of another track it is joined to it also where it misses it', () => {
    const plan = (x: number) =>
      estimateOf(
        planWith(
          { name: 'one', elements: [straight(1000)], end: { before: 'two' } },
          { name: 'two', start: { x }, elements: [straight(1000)] },
        ),
      )
    const [met, missed] = [plan(1000), plan(1300)]
    expect(met.tracks[0]!.closure).toEqual({ gapMm: 0, headingDeg: 0, elevationMm: 0 })
    expect(closures(met)).toEqual([])
    expect(missed.tracks.map(({ ties, joints }) => [ties, joints])).toEqual(
      met.tracks.map(({ ties, joints }) => [ties, joints]),
    )
    expect(closures(missed)).toMatchObject([{ track: 'one', severity: 'stop', measured: 300 }])
    expect(closures(missed)[0]!.message).toContain('The end misses the start of two by 300 mm')
  })

  it('a ring of tracks closes like a closed one: three thirds of a circle', () => {
    const third = (name: string, more: Partial<TrackInput>): TrackInput => ({
      name,
      elements: [arc(900, 120)],
      ...more,
    })
    const { tracks, extent, findings } = estimateOf(
      planWith(
        third('a', {}),
        third('b', { start: { after: 'a' } }),
        third('c', { start: { after: 'b' }, end: { before: 'a' } }),
      ),
    )
    expect(tracks[2]!.closure!.gapMm).toBeLessThan(1e-9)
    expect(Math.abs(tracks[2]!.closure!.headingDeg!)).toBeLessThan(1e-9)
    expect(findings.filter(({ rule }) => rule === 'closure')).toEqual([])
    for (const [found, expected] of [
      [extent.minXMm, -900],
      [extent.maxXMm, 900],
      [extent.minYMm, 0],
      [extent.maxYMm, 1800],
    ])
      expect(found).toBeCloseTo(expected!, 8)
  })
})

it('reads from JSON, each fault in its place', () => {
  const sent = (start: unknown, end: unknown) =>
    readPlan({ rail: BRASS_250, tracks: [{ name: 'a', start, end, elements: [straight(9)] }] })
  const places = (start: unknown, end: unknown) => {
    const read = sent(start, end)
    return read.ok ? [] : read.faults.map(({ path }) => `/${path.slice(2).join('/')}`)
  }
  expect(places({ x: '3 ft' }, { at: { x: '6 ft', y: 0, heading: 90, elevation: '1 in' } })).toEqual([])
  expect(places({ after: 3 }, { at: { x: 1 } })).toEqual(['/start/after', '/end/at/y'])
  expect(places({ after: 'a', x: '6' }, {})).toEqual(['/start/x', '/end/at', '/start/after'])
  expect(places({}, { at: { x: 0, y: 0 }, before: 'b' })).toEqual(['/end/at', '/end/before'])
})
