import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { planFaults } from '../../src/estimate/faults/faults.ts'
import type { TrackInput } from '../../src/plan/rows/track.ts'
import { arc, BRASS_250, estimateOf, planOf, straight } from './plans.ts'

const OFFSET = 22.5 + (0.112 * 25.4) / 2

/** Up 3 % for 3 m, over a hump of 2 m, down 1 %. */
const HUMP = [
  { at: 0, gradePct: 3 },
  { at: 3000, gradePct: -1, verticalCurve: 2000 },
]

/** Closed form of the length of a parabola, as far as the grades g1 and g2 go: see tests/track/curved-length.test.ts. */
const parabolaMm = (g1: number, g2: number, mm: number) => {
  const primitive = (g: number) => (g * Math.hypot(1, g) + Math.asinh(g)) / 2
  return ((primitive(g2) - primitive(g1)) / (g2 - g1)) * mm
}

describe('rails over a vertical curve', () => {
  it('are as long as it is', () => {
    const { tracks } = estimateOf(planOf([straight(6000)], { gradeLine: HUMP }))
    const expected = 2000 * Math.hypot(1, 0.03) + parabolaMm(0.03, -0.01, 2000) + 2000 * Math.hypot(1, 0.01)
    expect(tracks[0]!.rails.left.lengthMm).toBeCloseTo(expected, 8)
    expect(tracks[0]!.rails.right.lengthMm).toBeCloseTo(expected, 8)
  })

  it('in a curve are each as long as their own line', () => {
    const { tracks, bends } = estimateOf(planOf([straight(2000), arc(3000, 60, 'left')], { gradeLine: HUMP }))
    const arcMm = 1000 * Math.PI
    // Closed form: with u = g/k the length over ds is k·√(1 + u²), k = 1 ± o/R the rail's own share of the centre line.
    const rail = (k: number) => {
      const curved = parabolaMm(0.03 / k, -0.01 / k, 2000) * k
      return curved + (arcMm - 2000) * Math.hypot(k, 0.01)
    }
    const [inner, outer] = [rail(1 - OFFSET / 3000), rail(1 + OFFSET / 3000)]
    const element = tracks[0]!.elements[1]!
    expect(element.rails.left.lengthMm).toBeCloseTo(inner, 7)
    expect(element.rails.right.lengthMm).toBeCloseTo(outer, 7)
    expect(bends.map(({ lengthMm }) => lengthMm)).toEqual([expect.closeTo(outer, 7), expect.closeTo(inner, 7)])
  })

  it('are cut to pieces that add up to them', () => {
    const { cutting, tracks } = estimateOf(planOf([straight(2000), arc(3000, 60, 'left')], { gradeLine: HUMP }))
    for (const side of ['left', 'right'] as const) {
      const pieces = cutting.sticks.flatMap((stick) => stick.pieces).filter(({ rail }) => rail === side)
      expect(pieces.reduce((mm, { lengthMm }) => mm + lengthMm, 0)).toBeCloseTo(tracks[0]!.rails[side].lengthMm, 6)
    }
  })
})

describe('the answer', () => {
  it('tells a vertical curve, the profile, and levels where they are asked for', () => {
    const plan = planOf([straight(6000)], { gradeLine: HUMP, levelsAt: [1000, 3000] }, { levelsAt: [6000, 7000] })
    const track = estimateOf(plan).tracks[0]!
    expect(track.grades).toEqual([
      { fromMm: 0, toMm: 2000, gradePct: 3 },
      { fromMm: 2000, toMm: 4000, gradePct: 3, endGradePct: -1 },
      { fromMm: 4000, toMm: 6000, gradePct: -1 },
    ])
    // By hand: 90 mm at the vertex less e = 4 % × 2000/8; 60 at 6 m.
    expect(track.levels).toEqual([
      { atMm: 1000, elevationMm: 30, gradePct: 3 },
      { atMm: 3000, elevationMm: 80, gradePct: expect.closeTo(1, 9) },
      { atMm: 6000, elevationMm: 60, gradePct: -1 },
    ])
    // Level three quarters into the curve: 60 + 3 % × 1500 / 2.
    expect(track.profile.extremes).toEqual([
      { kind: 'summit', atMm: expect.closeTo(3500, 9), elevationMm: expect.closeTo(82.5, 9) },
    ])
    expect(track.end.elevationMm).toBeCloseTo(60, 9)
  })

  it('has a grade that lasts to the end, also for a track that continues', () => {
    const plan = {
      rail: BRASS_250,
      tracks: [
        { name: 'a', elements: [straight(2000)], gradeLine: [{ at: 1000, gradePct: 2 }] },
        { name: 'b', start: { after: 'a' }, elements: [straight(1000)], gradeLine: [{ at: 0, gradePct: 1 }] },
      ],
    }
    const { tracks } = estimateOf(plan)
    expect(tracks.map(({ start, end }) => [start.elevationMm, end.elevationMm])).toEqual([
      [0, 20],
      [20, 30],
    ])
  })
})

describe('a grade line that contradicts itself', () => {
  const faults = (track: Partial<TrackInput>, ...more: Partial<TrackInput>[]) =>
    planFaults({
      rail: BRASS_250,
      tracks: [track, ...more].map((each, n) => ({ name: `t${n}`, elements: [straight(6000)], ...each })),
    }).map(({ path, code }) => `/${path.join('/')} ${code}`)

  it('is refused where grades and elevations do not meet', () => {
    const gradeLine = [
      { at: 0, gradePct: 2 },
      { at: 1000, elevation: 20 },
    ]
    expect(faults({ gradeLine })).toEqual([])
    expect(faults({ gradeLine, start: { elevation: 0 } })).toEqual([])
    expect(faults({ gradeLine, start: { elevation: 5 } })).toEqual(['/tracks/0/gradeLine/1/elevation contradictory'])
    const continued = { gradeLine, start: { after: 't0' } }
    expect(faults({ start: { elevation: 3 } }, continued)).toEqual(['/tracks/1/gradeLine/1/elevation contradictory'])
  })

  it('is refused where a vertical curve has no room', () => {
    const curve = (at: number, verticalCurve: number) => ({ at, gradePct: 1, verticalCurve })
    const start = { at: 0, elevation: 0 }
    const at = (n: number) => [`/tracks/0/gradeLine/${n}/verticalCurve contradictory`]
    expect(faults({ gradeLine: [start, curve(1000, 2000)] })).toEqual([])
    expect(faults({ gradeLine: [start, curve(1000, 2001)] })).toEqual(at(1))
    expect(faults({ gradeLine: [curve(0, 500)] })).toEqual(at(0))
    expect(faults({ gradeLine: [start, curve(5500, 1000)] })).toEqual([])
    expect(faults({ gradeLine: [start, curve(5500, 1001)] })).toEqual(at(1))
    expect(faults({ gradeLine: [start, curve(1000, 1000), curve(2000, 1000)] })).toEqual([])
    expect(faults({ gradeLine: [start, curve(1000, 1000), curve(2000, 1001)] })).toEqual(at(2))
  })

  it('is refused where a steep grade follows from others', () => {
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 100, gradePct: 1 },
      { at: 200, elevation: 300 },
    ]
    expect(faults({ gradeLine })).toEqual(['/tracks/0/gradeLine/1/gradePct out-of-range'])
  })

  it('is refused where levels and limits are not on the track', () => {
    expect(faults({ levelsAt: [0, 6000, 6001] })).toEqual(['/tracks/0/levelsAt/2 out-of-range'])
    const limits = [
      { from: 100, to: 100, maximumGradePct: 1 },
      { from: 6001, to: 7000, maximumGradePct: 1 },
    ]
    expect(faults({ limits })).toEqual(['/tracks/0/limits/0/to out-of-order', '/tracks/0/limits/1/from out-of-range'])
  })
})

describe('a grade that is too steep', () => {
  it('has the grade itself as its remedy, where the plan gives it', () => {
    const plan = planOf([straight(6000)], { gradeLine: [{ at: 0, gradePct: -3 }] })
    const result = estimate(plan, { sent: plan })
    const findings = result.ok ? result.estimate.findings : []
    expect(findings.find(({ rule }) => rule === 'maximum-grade')?.remedy).toEqual([
      { op: 'replace', path: '/tracks/0/gradeLine/0/gradePct', value: -2 },
    ])
  })

  it('is the one that is changed, where another one is too steep as well', () => {
    const limits = [{ from: 4000, to: 5000, maximumGradePct: 0.5 }]
    const gradeLine = [
      { at: 0, gradePct: 2.5 },
      { at: 3000, gradePct: -1 },
    ]
    const plan = planOf([straight(6000)], { limits, gradeLine })
    const result = estimate(plan, { sent: plan })
    const findings = result.ok ? result.estimate.findings.filter(({ rule }) => rule === 'maximum-grade') : []
    expect(findings.map(({ remedy }) => remedy)).toEqual([
      [{ op: 'replace', path: '/tracks/0/gradeLine/0/gradePct', value: 2 }],
      [{ op: 'replace', path: '/tracks/0/gradeLine/1/gradePct', value: -0.5 }],
    ])
  })
})
