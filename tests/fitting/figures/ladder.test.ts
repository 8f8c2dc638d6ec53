import { describe, expect, test } from 'vitest'
import { built, refusal, SHORT_LEFT, SHORT_RIGHT, trackCalled } from './built.ts'

const YARD = {
  figure: 'ladder',
  turnoutTypes: [SHORT_LEFT, SHORT_RIGHT],
  spacing: 150,
  fouling: 120,
  clears: [2000, 1800, 1600, 1400],
  radius: 1500,
}
const F = 2 * Math.atan(1 / 12)

describe('a yard', () => {
  const made = built(YARD)

  test('has its tracks a spacing apart, parallel, and its turnouts p/sin F apart', () => {
    for (const [track, y] of [
      ['track 1', 0],
      ['track 2', 150],
      ['track 3', 300],
      ['ladder and track 4', 450],
    ] as const) {
      const { yMm, headingDeg } = trackCalled(made, track).elements.at(-1)!.end
      expect(yMm).toBeCloseTo(y, 9)
      expect(Math.min(headingDeg, 360 - headingDeg)).toBeCloseTo(0, 9)
    }
    const on = trackCalled(made, 'ladder and track 4').elements.filter(({ turnout }) => turnout)
    expect(on[1]!.fromMm - on[0]!.fromMm).toBeCloseTo(150 / Math.sin(F), 9)
  })

  test('has tracks that stand clear for as long as was asked', () => {
    // Beyond the point where both lines of a turnout meet, the tracks are 120 mm apart after 120/sin F of the ladder; the
    // leg of a No. 6 is straight from its frog on, 22.5 mm aside at 540 mm, and its lines meet at 270 mm.
    const curve = 3240 * F
    const toFouling = curve + (120 - 3240 * (1 - Math.cos(F))) / Math.sin(F)
    const lengthOf = (track: string) => trackCalled(made, track).lengthMm
    expect(lengthOf('track 1')).toBeCloseTo(toFouling + 2000, 8)
    const leg = 600 + 0
    const legLength = curve + (leg - 3240 * Math.sin(F)) / Math.cos(F)
    expect(legLength + lengthOf('track 2')).toBeCloseTo(toFouling + 1800, 8)
    expect(legLength + lengthOf('track 3')).toBeCloseTo(toFouling + 1600, 8)
    // The last track is clear from where the ladder is 120 mm from the line of the track before it.
    const last = trackCalled(made, 'ladder and track 4')
    const { end, toMm } = last.elements.findLast(({ turnout }) => turnout)!
    const beyond = (120 - (end.yMm - 300)) / Math.sin(F)
    expect(last.lengthMm - toMm - beyond).toBeCloseTo(1400, 8)
  })

  test('of two tracks needs one turnout alone', () => {
    const two = built({ ...YARD, turnoutTypes: [SHORT_LEFT], clears: [1000, 1200] })
    expect(two.plan.tracks.map(({ name }) => name)).toEqual(['track 1', 'track 2'])
    expect(trackCalled(two, 'track 2').elements.at(-1)!.end.yMm).toBeCloseTo(150, 9)
  })

  test('with count and clear is that with the clear length listed', () => {
    const { clears: _, ...rest } = YARD
    const counted = built({ ...rest, count: 4, clear: 1700 })
    expect(counted.answer.tracks).toEqual(built({ ...YARD, clears: [1700, 1700, 1700, 1700] }).answer.tracks)
  })

  test('whose turnouts would overlap, or diverge differently, is refused with all that is wrong', () => {
    expect(refusal({ ...YARD, spacing: 80, fouling: 90 }).map(([at, code]) => [at, code])).toEqual([
      ['spacing', 'out-of-range'],
      ['fouling', 'out-of-range'],
    ])
    expect(refusal({ ...YARD, turnoutTypes: [SHORT_LEFT, { ...SHORT_RIGHT, number: 5 }] })).toEqual([
      ['right', 'contradictory', 'use turnouts of both hands with the same frog'],
    ])
    expect(refusal({ ...YARD, clears: [2000, 10, 10, 1400], fouling: 30 }).map(([at]) => at)).toEqual([
      'clears',
      'clears',
    ])
  })
})
