import { describe, expect, it } from 'vitest'
import { patched } from '../../src/fitting/json-patch.ts'
import { networkOf } from '../../src/network/network.ts'
import { shortsOf } from '../../src/network/polarity.ts'
import type { NetworkTrack } from '../../src/network/track.ts'
import { loopPlan } from '../estimate/turnout-plans.ts'
import { worked } from '../estimate/worked.ts'
import { randomFrom } from '../random.ts'
import { movesOf, type SketchedTrack, sketch, tracksOf } from './random-networks.ts'

const TOLERANCES = { closureGap: 2, closureHeading: 0.5 }
const POWER = { currentA: 2, supplyVoltageV: 18 }

const shorts = (tracks: readonly NetworkTrack[]) => shortsOf(networkOf(tracks, TOLERANCES))

/**
 * A parity check on single rails: each part of a track has a left and a right rail, and each move of a train joins the
 * rails over which its wheels go. A short: some left rail is joined with the right rail of the same part.
 */
function isShort(sketched: readonly SketchedTrack[]): boolean {
  const { runs, next } = movesOf(sketched)
  const joined = new Map<string, string>()
  const rootOf = (rail: string): string => {
    const above = joined.get(rail)
    return above === undefined ? rail : rootOf(above)
  }
  // The rail under a train's left wheels is the right rail of a part it runs over backwards.
  const under = ({ part, forwards }: (typeof runs)[number], wheels: 'left' | 'right') =>
    `${part} ${(wheels === 'left') === forwards ? 'L' : 'R'}`
  for (const run of runs)
    for (const then of next(run))
      for (const wheels of ['left', 'right'] as const) {
        const [a, b] = [rootOf(under(run, wheels)), rootOf(under(then, wheels))]
        if (a !== b) joined.set(a, b)
      }
  return runs.some(({ part }) => rootOf(`${part} L`) === rootOf(`${part} R`))
}

/** With breaks where they are proposed. */
function insulated(tracks: readonly NetworkTrack[], leaveOut = -1): NetworkTrack[] {
  const places = shorts(tracks).flatMap(({ breakAt }) => breakAt)
  return tracks.map((track, index) => ({
    ...track,
    breaks: places
      .filter((place, n) => place.track === index && n !== leaveOut)
      .map(({ atMm }) => ({ at: atMm, kind: 'insulated' })),
  }))
}

describe('left rails that lead to right rails', () => {
  it('are found as by a parity check of single rails, and none are left with the breaks (500 random networks)', () => {
    const random = randomFrom(15)
    let short = 0
    let wyes = 0
    for (let n = 0; n < 500; n++) {
      const sketched = sketch(random)
      const tracks = tracksOf(sketched)
      const found = shorts(tracks)
      expect(found.length > 0, JSON.stringify(sketched)).toBe(isShort(sketched))
      expect(found.every(({ breaks, breakAt }) => breaks === 0 && breakAt.length === 2)).toBe(true)
      if (found.length === 0) continue
      short++
      wyes += found.filter(({ kind }) => kind === 'wye').length
      expect(shorts(insulated(tracks)), JSON.stringify(sketched)).toEqual([])
      // One of its breaks missing, a short is there again; where there are several, others may have broken it too.
      if (found.length === 1) expect(shorts(insulated(tracks, 0))).toMatchObject([{ breaks: 1 }])
    }
    expect(short).toBeGreaterThan(100)
    expect(wyes).toBeGreaterThan(0)
  })
})

/** A track that leaves its own turnout by the through leg and comes back to it by the other. */
function reverseLoop(breaks: readonly object[] = []) {
  return {
    rail: { section: '250', material: 'brass' },
    turnoutTypes: [{ id: 'six', hand: 'left', number: 6 }],
    power: POWER,
    tracks: [
      {
        name: 'loop',
        elements: [
          { kind: 'tangent', length: 1000 },
          { kind: 'turnout', name: 'W1', type: 'six', enters: 'points' },
          { kind: 'tangent', length: 1500 },
          { kind: 'arc', radius: 1500, angle: 220, turn: 'left' },
          { kind: 'tangent', length: 1000 },
        ],
        end: { to: { turnout: 'W1', leg: 'diverging' } },
        breaks,
      },
    ],
  }
}

/** Three straights from turnout to turnout; that they do not meet in place is another matter. */
function wye() {
  const turnout = (name: string) => ({ kind: 'turnout', name, type: 'six', enters: 'points' })
  const side = (name: string, turnoutName: string, y: number, to: string) => ({
    name,
    start: { x: 0, y },
    elements: [{ kind: 'tangent', length: 500 }, turnout(turnoutName), { kind: 'tangent', length: 2000 }],
    end: { to: { turnout: to, leg: 'diverging' } },
  })
  return {
    ...reverseLoop(),
    tracks: [side('a', 'W1', 0, 'W2'), side('b', 'W2', 5000, 'W3'), side('c', 'W3', 9000, 'W1')],
  }
}

const polarity = (plan: unknown) => worked(plan).findings.filter(({ rule }) => rule.startsWith('polarity'))

describe('findings on powered track', () => {
  it('a reverse loop is one stop, with its remedy', () => {
    const plan = reverseLoop()
    const found = polarity(plan)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatchObject({ rule: 'polarity-loop', severity: 'stop', track: 'loop', measured: 0, limit: 2 })
    expect(found[0]!.message).toContain('W1')
    const after = patched(plan, found[0]!.remedy!)
    expect(polarity(after)).toEqual([])
    const insulatedJoints = worked(after).joints.filter(({ kind }) => kind === 'insulated')
    expect(insulatedJoints).toHaveLength(4)
    expect(worked(after).bill.lines.find(({ item }) => item === 'insulated-joiner')).toMatchObject({ required: 4 })
  })

  it('breaks at one end are not enough, at both they are', () => {
    const insulatedAt = (...places: number[]) => reverseLoop(places.map((at) => ({ at, kind: 'insulated' })))
    expect(polarity(insulatedAt(2500))).toMatchObject([{ measured: 1, limit: 2 }])
    expect(polarity(insulatedAt(500))).toMatchObject([{ measured: 0 }])
    expect(polarity(insulatedAt(2500, 8000))).toEqual([])
    const bridge = [2500, 8000].map((at) => ({ at, kind: 'bridge-end' }))
    expect(polarity(reverseLoop(bridge))).toHaveLength(1)
    const remedy = polarity(insulatedAt(2500))[0]!.remedy!
    expect(polarity(patched(insulatedAt(2500), remedy))).toEqual([])
  })

  it('a wye is one stop, with its remedy', () => {
    const found = polarity(wye())
    expect(found).toMatchObject([{ rule: 'polarity-wye', severity: 'stop', measured: 0 }])
    expect(polarity(patched(wye(), found[0]!.remedy!))).toEqual([])
  })

  it('none without power in the rails, and none at a passing loop', () => {
    const { power, ...unpowered } = reverseLoop()
    expect(power).toBe(POWER)
    expect(polarity(unpowered)).toEqual([])
    expect(polarity({ ...reverseLoop(), power: 'none' })).toEqual([])
    expect(polarity({ ...loopPlan(), power: POWER })).toEqual([])
  })
})
