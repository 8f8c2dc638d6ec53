import { describe, expect, it } from 'vitest'
import { overhangOn } from '../../src/room/overhang.ts'
import { asSent, loopPlan, spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

const COACH = { name: 'coach', length: 700, truckCentres: 500, width: 130 }
const ENGINE = { name: 'engine', length: 400, truckCentres: 200, width: 150 }
const STANDARDS = { minimumTangentBetweenReverseCurves: 100, minimumRadius: 600 }
const straight = (name: string, y: number, more: object = {}) => ({
  name,
  start: { x: 0, y },
  elements: [{ kind: 'tangent', length: 3000 }],
  ...more,
})
const sent = (tracks: object[], more: object = {}) => ({
  ...asSent(),
  cars: [COACH, ENGINE],
  standards: STANDARDS,
  tracks,
  ...more,
})
const found = (plan: object) => worked(plan).findings.filter(({ rule }) => rule === 'track-spacing')
const circle = (name: string, radius: number) => ({
  name,
  closed: true,
  start: { x: 0, y: -radius },
  elements: [{ kind: 'arc', radius, angle: 360, turn: 'left' }],
})

describe('tracks beside each other', () => {
  it('on straights need the width of the widest car', () => {
    expect(found(sent([straight('a', 0), straight('b', 150)]))).toEqual([])
    expect(found(sent([straight('a', 0), straight('b', 149)]))).toMatchObject([
      {
        severity: 'warn',
        track: 'a',
        measured: expect.closeTo(149, 6),
        limit: expect.closeTo(150, 6),
        message: expect.stringContaining('two of engine touch as they pass. They need 150 mm there'),
      },
    ])
  })

  it('on curves need what the middle of one car and the corners of the other reach: closed form', () => {
    const cars = [COACH, ENGINE].map(({ length, truckCentres, width }) => ({
      ...{ lengthMm: length, truckCentresMm: truckCentres, widthMm: width },
    }))
    const most = (radius: number, side: 'insideReachMm' | 'outsideReachMm') =>
      Math.max(...cars.map((car) => overhangOn(radius, car)[side]))
    // The outer track's cars reach inwards, the inner track's outwards.
    let outer = 2000
    for (let step = 0; step < 50; step++) outer = 1800 + most(1800, 'outsideReachMm') + most(outer, 'insideReachMm')
    expect(found(sent([circle('in', 1800), circle('out', outer + 0.2)]))).toEqual([])
    expect(found(sent([circle('in', 1800), circle('out', outer - 0.5)]))).toMatchObject([
      { track: 'in', limit: expect.closeTo(outer - 1800, 1), measured: expect.closeTo(outer - 1800 - 0.5, 3) },
    ])
  })

  it('is the same whichever way the tracks run, and for a mirrored plan', () => {
    const back = (name: string, y: number) => straight(name, y, { start: { x: 3000, y, heading: 180 } })
    for (const tracks of [
      [straight('a', 0), back('b', 140)],
      [back('a', 0), straight('b', -140)],
      [back('a', 0), back('b', 140)],
    ])
      expect(found(sent(tracks))).toMatchObject([{ measured: expect.closeTo(140, 6), limit: expect.closeTo(150, 6) }])
  })

  it('a curve that comes back beside the straight it left is found, from either end: closed form', () => {
    // Its end lies R·(1 − cos) of the rest of the turn beside the straight; square to the curve there it is 1/cos of that.
    const [radius, restRad] = [2700, (14 * Math.PI) / 180]
    const apart = radius * (1 - Math.cos(restRad))
    const round = (turn: string) => ({ kind: 'arc', radius, angle: 346, turn })
    const lead = { kind: 'tangent', length: 3000 }
    const expected = (mm: number) => [{ severity: 'warn', measured: expect.closeTo(mm, 0), track: 'round' }]
    for (const [turn, side] of [
      ['left', 1],
      ['right', -1],
    ] as const) {
      const end = { x: 3000 - radius * Math.sin(restRad), y: side * apart, heading: 180 - side * 14 }
      expect(found(sent([{ name: 'round', elements: [lead, round(turn)] }]))).toMatchObject(
        expected(apart / Math.cos(restRad)),
      )
      const back = [round(turn === 'left' ? 'right' : 'left'), lead]
      const heading = turn === 'left' ? 180 - 14 : 180 + 14
      expect(found(sent([{ name: 'round', start: { ...end, heading }, elements: back }]))).toMatchObject(
        expected(apart),
      )
    }
  })

  it('a track beside itself is found once', () => {
    const half = { kind: 'arc', radius: 700, angle: 180, turn: 'left' }
    const back = { kind: 'arc', radius: 630, angle: 180, turn: 'left' }
    const tangent = (length: number) => ({ kind: 'tangent', length })
    // Out, round by a half circle, and back to 140 mm beside where it began.
    const spiral = [tangent(3000), half, tangent(3000), back, tangent(3000)]
    expect(found(sent([{ name: 'a', elements: spiral }]))).toMatchObject([
      { track: 'a', measured: expect.closeTo(140, 3), message: expect.stringContaining('beside itself') },
    ])
  })

  it('where one is higher than the cars of the other is left alone', () => {
    const higher = (elevation: number) => straight('b', 100, { start: { x: 0, y: 100, elevation } })
    expect(found(sent([straight('a', 0), higher(249)]))).toHaveLength(1)
    expect(found(sent([straight('a', 0), higher(250)]))).toEqual([])
  })

  it('is left alone before fouling points, where tracks cross, and where one begins on the other', () => {
    expect(found({ ...spurPlan(), cars: [COACH], standards: STANDARDS })).toEqual([])
    expect(found({ ...loopPlan(), cars: [COACH], standards: STANDARDS })).toEqual([])
    for (const heading of [10, 30, 60, 90, 117])
      for (const x of [1000, 1030, 1071, 1100]) {
        const turn = (heading * Math.PI) / 180
        const start = { x: x - 800 * Math.cos(turn), y: -800 * Math.sin(turn), heading }
        const across = { name: 'b', start, elements: [{ kind: 'tangent', length: 1600 }] }
        expect(found(sent([straight('a', 0), across]))).toEqual([])
        expect(found(sent([across, straight('a', 0)]))).toEqual([])
        const begins = { name: 'b', start: { x, y: 0, heading }, elements: [{ kind: 'tangent', length: 1600 }] }
        expect(found(sent([straight('a', 0), begins]))).toEqual([])
        expect(found(sent([begins, straight('a', 0)]))).toEqual([])
      }
    const from = {
      name: 'b',
      start: { x: 1000, y: 0 },
      elements: [{ kind: 'arc', radius: 1500, angle: 40, turn: 'left' }],
    }
    expect(found(sent([straight('a', 0), from]))).toEqual([])
  })

  it('of interlaced tracks is not asked for: one train at a time', () => {
    const both = [straight('a', 0, { interlaced: true }), straight('b', 30, { interlaced: true })]
    expect(found(sent(both))).toMatchObject([
      { severity: 'note', message: 'a and b are interlaced: one train at a time may be on either.' },
    ])
    expect(found(sent([both[0]!, straight('b', 30)]))).toMatchObject([{ severity: 'warn' }])
  })
})
