import { describe, expect, it } from 'vitest'
import { patched } from '../../src/fitting/json-patch.ts'
import { worked } from '../estimate/worked.ts'

const CAR_MM = 700
const tangent = (length: number) => ({ kind: 'tangent', length })
const turnout = (name: string, enters: string) => ({ kind: 'turnout', name, type: 'six', enters })

function plan(tracks: readonly object[]) {
  return {
    rail: { section: '250', material: 'brass' },
    turnoutTypes: [{ id: 'six', hand: 'left', number: 6 }],
    standards: { minimumRadius: 1000, longestCar: CAR_MM },
    tracks,
  }
}

/** The points of W1 at the end of its element, those of W2 at the start of its own. */
const apart = (mm: number) => {
  const between = mm === 0 ? [] : [tangent(mm)]
  return plan([{ name: 'a', elements: [turnout('W1', 'through'), ...between, turnout('W2', 'points')] }])
}

const found = (sent: unknown) => worked(sent).findings.filter(({ rule }) => rule === 'turnout-spacing')

describe('points that face each other', () => {
  it('nearer than the longest car are a note, once, with a remedy; at the limit there is none', () => {
    expect(found(apart(CAR_MM))).toEqual([])
    expect(found(apart(0))).toMatchObject([{ measured: 0, limit: CAR_MM, track: 'a', element: 1 }])
    const [near] = found(apart(CAR_MM - 1))
    expect(near).toMatchObject({ severity: 'note', element: 2, measured: CAR_MM - 1, unit: 'mm' })
    expect(near!.message).toContain('W1 and W2')
    expect(found(patched(apart(CAR_MM - 1), near!.remedy!))).toEqual([])
  })

  it('are found across a join of two tracks', () => {
    const sent = plan([
      { name: 'a', elements: [turnout('W1', 'through'), tangent(200)] },
      { name: 'b', start: { after: 'a' }, elements: [tangent(100), turnout('W2', 'points')] },
    ])
    expect(found(sent)).toMatchObject([{ track: 'b', element: 1, measured: 300 }])
  })

  it('others may follow each other at once: a leg and points, or two legs', () => {
    const both = (first: string, second: string) =>
      found(plan([{ name: 'a', elements: [turnout('W1', first), tangent(100), turnout('W2', second)] }]))
    expect(both('points', 'points')).toEqual([])
    expect(both('through', 'through')).toEqual([])
    expect(both('points', 'through')).toEqual([])
  })

  it('of one turnout on a loop, which meets itself, are none', () => {
    const loop = {
      name: 'a',
      closed: true,
      elements: [turnout('W1', 'points'), { kind: 'arc', radius: 1500, angle: 360, turn: 'left' }],
    }
    expect(found(plan([loop]))).toEqual([])
  })
})
