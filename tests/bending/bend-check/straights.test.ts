import { describe, expect, it } from 'vitest'
import type { Layout } from '../../../src/bending/bend-check/layout.ts'
import {
  misreadHalfThrow,
  showsStraight,
  straightened,
  withStraightsBetween,
} from '../../../src/bending/bend-check/straights.ts'
import { checked, displaced, profile, sampled } from './curves.ts'

/** Up to one level, a straight, down to another: corners [station, ordinate]. */
const S_CURVES: (readonly (readonly [number, number])[])[] = [
  [
    [2, 0],
    [5, 18],
    [13, 18],
    [15, 0],
    [18, 0],
    [20, -14],
    [27, -14],
    [31, 0],
  ],
  [
    [2.4, 0],
    [3.6, 12],
    [12.3, 12],
    [13.1, 0],
    [18.7, 0],
    [19.9, -9],
    [31, -9],
    [32.5, 0],
  ],
  [
    [1.5, 0],
    [6.5, 8],
    [14, 8],
    [17.5, 0],
    [20, 0],
    [24, -20],
    [30, -20],
    [34.5, 0],
  ],
  [
    [3, 0],
    [4, 15],
    [9, 15],
    [10, 0],
    [13, 0],
    [14, -15],
    [19, -15],
    [20, 0],
  ],
  [
    [2, 0],
    [4.5, -10],
    [16, -10],
    [18, 0],
    [21.6, 0],
    [23, 16],
    [29, 16],
    [33, 0],
  ],
  [
    [2, 0],
    [3, 6],
    [14, 6],
    [15, 0],
    [19, 0],
    [21, -13],
    [30, -13],
    [32, 0],
  ],
]

/** Out of place by up to 1 mm, the first two and the last two stations not at all. */
const PATTERN = [0.6, -0.9, 0.2, 1, -0.4, -1, 0.7, 0.1, -0.7, 0.9, -0.2, 0.4, -0.6, 0.8, -0.1, 0.3, -0.8]
const uneven = (corners: readonly (readonly [number, number])[]) => {
  const stations = Math.ceil(corners.at(-1)![0]) + 3
  const out = Array.from({ length: stations }, (_, n) => (n < 2 || n > stations - 3 ? 0 : PATTERN[n % 17]!))
  return displaced(sampled(profile(corners), stations), out)
}

describe('the straight between reverse curves', () => {
  it.each(S_CURVES.map((corners, n) => [n, corners] as const))(
    'is proposed for S-curve %i, at its place',
    (_, corners) => {
      const check = checked({ chordMm: 500, readingsMm: uneven(corners) })
      const { bodies } = check.proposal!
      expect(bodies).toHaveLength(3)
      expect(bodies[1]).toMatchObject({ radiusMm: null, ordinateMm: 0 })
      // Half a station: unevenness of 1 mm moves where a run of 6 to 18 mm in one to five stations meets it.
      expect(bodies[1]!.fromMm).toBeGreaterThan(250 * (corners[3]![0] - 1))
      expect(bodies[1]!.toMm).toBeLessThan(250 * (corners[4]![0] + 1))
      expect(bodies[0]!.ordinateMm).toBeCloseTo(corners[1]![1], -0.5)
      expect(bodies[2]!.ordinateMm).toBeCloseTo(corners[5]![1], -0.5)
      // Derived: putting every station back needs throws of up to 1 mm. Not closer, with so short a straight: 1.05.
      expect(check.largestThrowMm).toBeLessThanOrEqual(1.05)
    },
  )

  it('is not invented where one curve runs evenly into the other', () => {
    const corners = [
      [2, 0],
      [5, 18],
      [13, 18],
      [18, -14],
      [27, -14],
      [31, 0],
    ] as const
    expect(checked({ chordMm: 500, readingsMm: uneven(corners) }).proposal!.bodies).toHaveLength(2)
  })
})

describe('a body that may be straight', () => {
  it('between two curves is one: 0.22 mm is within the reading', () => {
    const readings = sampled(
      profile([
        [2, 0],
        [4, 18],
        [11, 18],
        [13, -0.22],
        [20, -0.22],
        [23, 15],
        [30, 15],
        [33, 0],
      ]),
      36,
    )
    const { proposal, largestThrowMm } = checked({ chordMm: 500, readingsMm: readings })
    expect(proposal!.bodies.map(({ radiusMm }) => radiusMm === null)).toEqual([false, true, false])
    expect(proposal!.bodies[1]!.ordinateMm).toBe(0)
    // By hand: eight stations bent by 0.22 mm stand 2·0.22·8²/8 = 3.5 mm off their chord.
    expect(largestThrowMm).toBeLessThan(3.6)
  })

  it('stays straight whatever an error of reading does to it', () => {
    // By hand: 0.5·16^1.5/6 = 5.33.
    expect(
      misreadHalfThrow({ cuts: [1, 2, 5, 6, 22, 23, 30, 31], signs: [1, -1, -1, 1], straights: [1] }, 0.5),
    ).toBeCloseTo(5.333, 3)
    // Closed form: the variance at the middle is Σ (i/2)²·r²/3 over the stations from both ends.
    const variance = Array.from({ length: 400 }, (_, i) => (Math.min(i, 400 - i) / 2) ** 2 / 3).reduce(
      (a, b) => a + b,
      0,
    )
    const layout: Layout = { cuts: [1, 2, 3, 4, 404, 405, 410, 411], signs: [1, -1, -1, 1], straights: [1] }
    expect(misreadHalfThrow(layout, 1) / (2 * Math.sqrt(variance))).toBeCloseTo(1, 3)
  })

  it('is a curve when it turns the track: forty stations of 0.45 mm', () => {
    // By hand: forty times 0.45 mm turn the track by 2·18/250 rad = 8.25°, which no straight can.
    const readings = sampled(
      profile([
        [2, 0],
        [3, 0.45],
        [42, 0.45],
        [43, 0],
      ]),
      46,
    )
    const { proposal } = checked({ chordMm: 500, readingsMm: readings })
    expect(proposal!.bodies.map(({ ordinateMm }) => ordinateMm)).toEqual([expect.closeTo(0.45, 3)])
  })

  it('at an end belongs to the straight beyond; neighbours are one', () => {
    const layout: Layout = { cuts: [1, 2, 5, 6, 12, 13, 15, 16, 19, 20], signs: [1, 1, -1, 1, -1] }
    // The runs of one station each follow the four levels.
    const unknowns = [0.2, 12, -0.1, 0.3]
    expect(straightened(layout, unknowns, 0.5)).toEqual({ cuts: [5, 6, 12, 13], signs: [1, -1], straights: [] })
    expect(straightened(layout, [9, 0.1, -0.2, 12], 0.5)).toEqual({
      cuts: [1, 2, 5, 6, 15, 16, 19, 20],
      signs: [1, -1, 1, -1],
      straights: [1],
    })
    expect(straightened(layout, [9, 8, 7, 6], 0.5)).toBeNull()
    expect(straightened(layout, [0, 0, 0, 0], 0.5)).toBeNull()
  })
})

describe('where a straight is put in', () => {
  const layout: Layout = { cuts: [1, 3, 6, 12, 15, 17], signs: [1, -1, 1] }

  it('is where the run passes through 0', () => {
    // From 10 to −5 in the six stations 6 to 11: two thirds along.
    expect(withStraightsBetween(layout, [10, -5])).toEqual({
      cuts: [1, 3, 6, 10, 11, 12, 15, 17],
      signs: [1, -1, -1, 1],
      straights: [1],
    })
    expect(withStraightsBetween(layout, [10, 5])).toBeNull()
  })

  it('is shown by more readings of 0 than an even run has', () => {
    const run = { from: 2, to: 7, before: 12, after: -12 }
    // By hand: 24 mm in six steps is 4 mm a station; ±0.5 mm holds 1.25 stations at most.
    expect(showsStraight([12, 12, 8, 4, 0, -4, -8, -12], 0.5)(run)).toBe(false)
    expect(showsStraight([12, 12, 8, 0.5, -0.5, -4, -8, -12], 0.5)(run)).toBe(true)
  })
})
