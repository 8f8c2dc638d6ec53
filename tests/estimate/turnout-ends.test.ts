import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { type FitOptions, fitOptions } from '../../src/estimate/questions/fit-options.ts'
import { readFits } from '../../src/estimate/questions/read-fits.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'
import { pathsBetween } from '../../src/fitting/paths.ts'
import { BRASS_250 } from './plans.ts'

type Sent = Record<string, unknown>

const six = (hand: 'left' | 'right', onHand: number) => ({
  id: `six ${hand}`,
  hand,
  number: 6,
  form: 'straight-frog',
  onHand,
})
const MAIN = { name: 'main', elements: [{ kind: 'tangent', length: '8 m', label: 'front' }] }
const BACK = { name: 'back', start: { x: 0, y: 3000 }, elements: [{ kind: 'tangent', length: '9 m' }] }
const CONNECT = { kind: 'connect', minimumRadius: 1500 }
const link = (more: Sent) => ({ name: 'link', elements: [CONNECT], ...more })
const planOf = (tracks: Sent[], turnoutTypes = [six('left', 2), six('right', 1)]): Sent => ({
  rail: BRASS_250,
  standards: { minimumRadius: 1500, minimumTangentBetweenReverseCurves: 300 },
  turnoutTypes,
  tracks,
})
const BOTH = planOf([MAIN, BACK, link({ start: { x: 1500, y: 0 }, end: { at: { x: 7000, y: 3000, heading: 0 } } })])

function answered(plan: Sent, more: Sent = {}) {
  const read = readFits({ plan, turnouts: true, ...more })
  return read.ok ? fitOptions(read.asked) : read
}
function optionsOf(plan: Sent, more: Sent = {}): FitOptions['options'] {
  const answer = answered(plan, more)
  if (!answer.ok) throw new Error(JSON.stringify(answer.faults))
  return answer.answer.options
}
function worked(plan: unknown) {
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}
const faultOf = (plan: Sent) => {
  const answer = answered(plan)
  if (answer.ok) throw new Error(JSON.stringify(answer.answer.options))
  return answer.faults[0]!
}

describe('turnouts at the ends of a connection', () => {
  it('are written in by the patch: the estimate of that plan closes, and has the cost and the findings that were told', () => {
    const options = optionsOf(BOTH)
    expect(options.length).toBeGreaterThan(0)
    for (const { remedy, cost, findings, lengthMm, elements, turnouts } of options) {
      expect(turnouts).toHaveLength(2)
      const { tracks, bill, findings: found } = worked(patched(BOTH, remedy as Patch))
      expect(bill.total).toBe(cost)
      expect(found.map(({ rule, track, element }) => [rule, track, element])).toEqual(
        findings.map(({ rule, track, element }) => [rule, track, element]),
      )
      expect(found.filter(({ severity }) => severity === 'stop')).toEqual([])
      const { closure, lengthMm: linkMm } = tracks[2]!
      expect(closure!.gapMm).toBeLessThan(1e-4)
      expect(linkMm).toBeCloseTo(lengthMm, 4)
      expect(elements.every(({ track }) => track === 'link')).toBe(true)
      // The straights keep their lengths.
      expect([tracks[0]!.lengthMm, tracks[1]!.lengthMm]).toEqual([expect.closeTo(8000, 5), expect.closeTo(9000, 5)])
    }
  })

  it('lie where a look at every place of the straight finds the shortest path', () => {
    // The turnout in the straight of main alone; the path comes to its end as given.
    const plan = planOf([MAIN, link({ start: { x: 1500, y: 0 }, end: { at: { x: 7000, y: 2600, heading: 30 } } })])
    const [best] = optionsOf(plan)
    const { type, atMm } = best!.turnouts[0]!
    expect(type).toBe('six left')
    const withTurnoutAt = (mm: number) => {
      const elements = [
        { kind: 'tangent', length: mm },
        { kind: 'turnout', name: 'T1', type, enters: 'points' },
        { kind: 'tangent', length: 10 },
      ]
      const siding = {
        name: 's',
        start: { from: { turnout: 'T1', leg: 'diverging' } },
        elements: [{ kind: 'tangent', length: 1 }],
      }
      return worked(planOf([{ ...MAIN, elements }, siding])).tracks[1]!.elements[0]!.start
    }
    const [one, other] = [withTurnoutAt(1000), withTurnoutAt(2000)]
    expect([other.xMm - one.xMm, other.yMm - one.yMm, other.headingDeg]).toEqual([
      expect.closeTo(1000, 6),
      expect.closeTo(0, 6),
      one.headingDeg,
    ])
    const end = { xMm: 7000, yMm: 2600, headingRad: Math.PI / 6 }
    const none = { curvature: 0, straightMm: 0, hasEasement: false }
    const asked = { minimumRadiusMm: 1500, easementMm: 0, reverseMm: 300, before: none, after: none }
    let [least, leastAt] = [Number.POSITIVE_INFINITY, 0]
    for (let mm = 0; mm <= 6800; mm++) {
      const start = { xMm: one.xMm + mm - 1000, yMm: one.yMm, headingRad: (one.headingDeg * Math.PI) / 180 }
      const { lengthMm } = pathsBetween(start, end, asked)[0]!
      if (lengthMm < least) [least, leastAt] = [lengthMm, mm]
    }
    expect(best!.lengthMm).toBeLessThan(least + 0.02)
    expect(Math.abs(atMm - leastAt)).toBeLessThanOrEqual(30)
  })

  it('are the same mirrored and reversed', () => {
    const lengths = (plan: Sent) => optionsOf(plan).map(({ lengthMm }) => Math.round(lengthMm * 10) / 10)
    const there = lengths(BOTH)
    const mirrored = planOf(
      [
        MAIN,
        { ...BACK, start: { x: 0, y: -3000 } },
        link({ start: { x: 1500, y: 0 }, end: { at: { x: 7000, y: -3000, heading: 0 } } }),
      ],
      [six('right', 2), six('left', 1)],
    )
    const reversed = planOf([
      MAIN,
      BACK,
      link({ start: { x: 7000, y: 3000, heading: 180 }, end: { at: { x: 1500, y: 0, heading: 180 } } }),
    ])
    for (const other of [lengths(mirrored), lengths(reversed)]) {
      expect(other.length).toBe(there.length)
      for (const [n, mm] of other.entries()) expect(Math.abs(mm - there[n]!)).toBeLessThan(0.5)
    }
  })

  it('use no more than are on hand, and names that are free', () => {
    const one = planOf(BOTH.tracks as Sent[], [six('left', 1), six('right', 1)])
    for (const { turnouts } of optionsOf(one)) expect(new Set(turnouts.map(({ type }) => type)).size).toBe(2)
    const used = {
      ...MAIN,
      elements: [
        ...MAIN.elements,
        { kind: 'turnout', name: 'T1', type: 'six left', enters: 'points' },
        { kind: 'tangent', length: 500 },
      ],
    }
    const [first] = optionsOf(planOf([used, ...(BOTH.tracks as Sent[]).slice(1)], [six('left', 3)]))
    expect(first!.turnouts.map(({ name }) => name)).toEqual(['T2', 'T3'])
  })

  it('are refused with the reason', () => {
    expect(faultOf(planOf(BOTH.tracks as Sent[], [six('left', 0)]))).toMatchObject({
      path: ['plan', 'tracks', 2, 'elements', 0],
      code: 'no-fit',
      hint: expect.stringContaining('onHand'),
    })
    const away = planOf([MAIN, link({ start: { x: 0, y: 500 }, end: { at: { x: 7000, y: 3000, heading: 0 } } })])
    expect(faultOf(away).detail).toContain('within 100 mm')
    const short = { ...MAIN, elements: [{ kind: 'tangent', length: 400 }] }
    const tooShort = planOf([short, link({ start: { x: 100, y: 0 }, end: { at: { x: 7000, y: 3000, heading: 0 } } })])
    expect(faultOf(tooShort).detail).toContain('shorter than the turnouts')
  })
})
