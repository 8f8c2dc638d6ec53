import { describe, expect, test } from 'vitest'
import { offsetAt, offsetPlaces } from '../../../src/track/turnout/offsets.ts'
import { turnoutOf } from '../../../src/track/turnout/turnout.ts'
import type { TurnoutSize } from '../../../src/track/turnout/types.ts'

function legsOf(size: TurnoutSize) {
  const result = turnoutOf(size, 45)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.turnout.legs
}

describe('offsets of a leg from the line through the points', () => {
  const { through, diverging } = legsOf({ hand: 'left', number: 6 })

  test('of a No. 6 are those of its arc of 3240 mm, then of a straight (closed form)', () => {
    const f = 2 * Math.atan(1 / 12)
    for (const d of [0, 100, 270, 500])
      expect(offsetAt(diverging, d).offsetMm).toBeCloseTo(3240 - Math.sqrt(3240 ** 2 - d ** 2), 9)
    // The arc ends at R·sin F, R(1 − cos F); the leg where it is two gauges off.
    const beyond = 600
    expect(offsetAt(diverging, beyond).offsetMm).toBeCloseTo(
      3240 * (1 - Math.cos(f)) + (beyond - 3240 * Math.sin(f)) * Math.tan(f),
      9,
    )
    expect(offsetAt(diverging, diverging.end.xMm).offsetMm).toBeCloseTo(90, 9)
    expect(offsetAt(through, 300).offsetMm).toBe(0)
  })

  test('of the other hand are below zero, of a wye equal to both sides', () => {
    const right = legsOf({ hand: 'right', number: 6 })
    expect(offsetAt(right.diverging, 400).offsetMm).toBeCloseTo(-offsetAt(diverging, 400).offsetMm, 12)
    const wye = legsOf({ hand: 'wye', number: 4 })
    expect(offsetAt(wye.through, 200).offsetMm).toBeCloseTo(-offsetAt(wye.diverging, 200).offsetMm, 12)
  })

  test('behind a straight switch rail go along it first (by hand)', () => {
    const heel = { heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }
    const leg = legsOf({ hand: 'left', number: 6, ...heel }).diverging
    const [rail] = leg.pieces
    expect(offsetAt(leg, 75).offsetMm).toBeCloseTo((rail!.end.yMm * 75) / rail!.end.xMm, 9)
    expect(offsetAt(leg, leg.end.xMm).offsetMm).toBeCloseTo(leg.end.yMm, 9)
  })

  test('are asked for every step and at the end, never more than 25 times', () => {
    const places = offsetPlaces(through, diverging, 100)
    const endMm = Math.min(through.end.xMm, diverging.end.xMm)
    expect(places.slice(0, 3)).toEqual([100, 200, 300])
    expect(places.at(-1)).toBe(endMm)
    expect(places.every((each, n) => n === 0 || each > places[n - 1]!)).toBe(true)
    const flat = legsOf({ hand: 'left', number: 100 })
    expect(offsetPlaces(flat.through, flat.diverging, 100).length).toBeLessThanOrEqual(25)
    expect(offsetPlaces(flat.through, flat.diverging, 1e6)).toHaveLength(1)
  })
})
