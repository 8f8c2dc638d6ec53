import { describe, expect, test } from 'vitest'
import { built, refusal, SIX_LEFT, trackCalled } from './built.ts'

const DOUBLE = { figure: 'junction', turnoutTypes: [SIX_LEFT], radius: 1500, spacing: 200, angle: 60 }
const F = 2 * Math.atan(1 / 12)

describe('a junction', () => {
  test('of a single line turns by the angle asked for, the turnout included', () => {
    const { elements } = trackCalled(built({ ...DOUBLE, spacing: undefined }), 'branch')
    expect(elements.at(-1)!.end.headingDeg).toBeCloseTo(60, 9)
  })

  test('of double track has its crossing at one place on both tracks', () => {
    const made = built(DOUBLE)
    const crossings = ['branch', 'nearer main'].map((name) => {
      const { start, end } = trackCalled(made, name).elements.find(({ kind }) => kind === 'crossing')!
      return { x: (start.xMm + end.xMm) / 2, y: (start.yMm + end.yMm) / 2 }
    })
    expect(crossings[0]!.x).toBeCloseTo(crossings[1]!.x, 9)
    expect(crossings[0]!.y).toBeCloseTo(crossings[1]!.y, 9)
    // By hand: the two lines of a No. 6 meet 270 mm from its points, and p·cot F beyond is the crossing.
    expect(crossings[0]!.x).toBeCloseTo(270 + 200 / Math.tan(F), 8)
  })

  test('of double track branches into double track with curves around one centre', () => {
    const made = built(DOUBLE)
    const arcs = ['branch', 'nearer branch'].map((name) => trackCalled(made, name).elements.at(-1)!)
    const centres = arcs.map(({ start, radiusMm }) => {
      const h = (start.headingDeg * Math.PI) / 180
      return [start.xMm - radiusMm! * Math.sin(h), start.yMm + radiusMm! * Math.cos(h)] as const
    })
    expect(centres[0]![0]).toBeCloseTo(centres[1]![0], 8)
    expect(centres[0]![1]).toBeCloseTo(centres[1]![1], 8)
    expect(arcs.map(({ radiusMm }) => Math.round(radiusMm! * 1e6) / 1e6)).toEqual([1700, 1500])
    expect(arcs.map(({ end }) => Math.round(end.headingDeg * 1e9) / 1e9)).toEqual([60, 60])
  })

  test('that cannot be built is refused with the nearest that can', () => {
    const [[place, , hint]] = refusal({ ...DOUBLE, spacing: 100 }) as [[string, string, string]]
    expect(place).toBe('spacing')
    expect(refusal({ ...DOUBLE, spacing: Number(/spacing of ([\d.]+) mm/.exec(hint)![1]) })).toEqual([])
    expect(refusal({ ...DOUBLE, angle: 9 })).toEqual([['angle', 'out-of-range', 'use an angle of more than 10°']])
    expect(refusal({ ...DOUBLE, turnoutTypes: [{ ...SIX_LEFT, number: 12 }], spacing: 900 })[0]!.slice(0, 2)).toEqual([
      'left',
      'contradictory',
    ])
  })
})
