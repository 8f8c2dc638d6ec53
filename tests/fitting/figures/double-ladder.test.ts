import { describe, expect, test } from 'vitest'
import { built, gapOf, measure, refusal, SHORT_LEFT, SHORT_RIGHT, trackCalled } from './built.ts'

const YARD = {
  figure: 'ladder',
  doubleEnded: true,
  turnoutTypes: [SHORT_LEFT, SHORT_RIGHT],
  spacing: 150,
  fouling: 120,
  count: 4,
  clear: 2000,
  radius: 1500,
}
const F = 2 * Math.atan(1 / 12)
/** Along the ladder from where the lines of a No. 6 meet until they are 120 mm apart, from its points along its curve. */
const TO_FOULING = 3240 * F + (120 - 3240 * (1 - Math.cos(F))) / Math.sin(F)

describe('a yard with a ladder at either end', () => {
  const made = built(YARD)

  test('has its tracks parallel a spacing apart, each from a turnout to a turnout', () => {
    expect(gapOf(made)).toBeLessThan(1e-6)
    const { tracks } = made.plan
    expect(tracks.map(({ name }) => name)).toEqual(['track 1', 'ladders and track 4', 'track 2', 'track 3'])
    for (const { start, end } of tracks.slice(1)) {
      expect(start?.from?.leg).toBe('diverging')
      expect(end?.to?.leg).toBe('diverging')
    }
    for (const [track, y] of [
      ['track 2', 150],
      ['track 3', 300],
    ] as const)
      for (const { start, end } of trackCalled(made, track).elements)
        for (const { yMm } of [start, end]) expect(yMm).toBeCloseTo(y, 9)
    const straights = trackCalled(made, 'ladders and track 4').elements.filter(({ kind }) => kind === 'tangent')
    const longest = straights.reduce((a, b) => (b.lengthMm > a.lengthMm ? b : a))
    expect(longest.start.yMm).toBeCloseTo(450, 9)
    expect(measure(made, 'turnouts apart along the ladders')).toBeCloseTo(150 / Math.sin(F), 9)
  })

  test('gives the shortest track the clear length that is wanted, and the others what the ladders make', () => {
    const clear = (track: number) => measure(made, `clear length of track ${track}`)
    expect(Math.min(...[1, 2, 3, 4].map(clear))).toBeCloseTo(2000, 9)
    // By hand: each further track begins p·cot F later at both ends.
    expect(clear(2) - clear(3)).toBeCloseTo((2 * 150) / Math.tan(F), 8)
    // The straight track stands clear as far from the points as the ladder takes to be 120 mm away.
    expect(measure(made, 'points to points') - 2 * TO_FOULING).toBeCloseTo(clear(1), 8)
  })

  test('agrees with where cars stand in the estimate of its plan', () => {
    const wider = built({ ...YARD, standards: { trackSpacing: 120 } })
    const standing = wider.estimate.standing!
    for (const [track, name] of [
      [2, 'track 2'],
      [3, 'track 3'],
    ] as const) {
      const longest = Math.max(...standing.filter((each) => each.track === name).map(({ clearMm }) => clearMm))
      // That is measured from the ends of the cars' room, not from centre line to centre line: under 1 % where lines part.
      expect(Math.abs(longest / measure(wider, `clear length of track ${track}`) - 1)).toBeLessThan(0.01)
    }
  })

  test('of clear lengths of its own, none is less than wanted and one is no more', () => {
    const wanted = [3000, 5000, 2500, 2000]
    const { count: _, clear: __, ...rest } = YARD
    const own = built({ ...rest, clears: wanted })
    const more = wanted.map((clearMm, index) => measure(own, `clear length of track ${index + 1}`) - clearMm)
    expect(Math.min(...more)).toBeCloseTo(0, 9)
    expect(more.every((mm) => mm > -1e-9)).toBe(true)
  })

  test('of two tracks is as long as a passing loop of the same clear length', () => {
    const two = built({ ...YARD, count: 2 })
    expect(two.plan.tracks.map(({ name }) => name)).toEqual(['track 1', 'track 2'])
    expect(gapOf(two)).toBeLessThan(1e-6)
    const { count: _, doubleEnded: __, ...rest } = YARD
    const loop = built({ ...rest, figure: 'passing-loop' })
    const clear = (track: number) => measure(two, `clear length of track ${track}`)
    // One of the two is clear for what is wanted; the loop counts that of its siding.
    const shorterMm = measure(loop, 'clear length of the siding') - clear(2)
    expect(measure(loop, 'points to points') - measure(two, 'points to points')).toBeCloseTo(shorterMm, 8)
  })

  test('is refused where its ladders would run into each other, with what can be built', () => {
    const [[place, code, hint]] = refusal({ ...YARD, clear: 10 }) as [[string, string, string]]
    expect([place, code]).toEqual(['clear', 'out-of-range'])
    const least = Number(/([\d.]+) mm or more/.exec(hint)![1])
    expect(gapOf(built({ ...YARD, clear: least }))).toBeLessThan(1e-6)
    expect(refusal({ ...YARD, clear: least - 2 })).not.toEqual([])
  })

  test('needs turnouts of both hands with the same frog', () => {
    expect(refusal({ ...YARD, turnoutTypes: [SHORT_LEFT] })).toMatchObject([['right', 'missing', expect.anything()]])
  })
})
