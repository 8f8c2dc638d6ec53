import { describe, expect, it } from 'vitest'
import { curvatureOn, placeElements, poseOn, turnedBetween } from '../../../src/track/place.ts'
import { layRail, railDistanceAt, stationAtRailDistance } from '../../../src/track/rails.ts'
import { crossingLengthMm, turnoutEnds } from '../../../src/track/turnout/special-track.ts'
import type { Pose } from '../../../src/track/types.ts'
import { SIZES, worked } from './sizes.ts'

const START: Pose = { xMm: 120, yMm: -40, headingRad: 0.7 }

describe.each(Object.entries(SIZES))('%s in a track', (_, size) => {
  const geometry = worked(size)
  const special = { gaugeMm: 45, turnouts: new Map([['t', geometry]]) }
  const through = (enters: 'points' | 'through' | 'diverging', leaves?: 'through' | 'diverging', start = START) =>
    placeElements(start, [{ kind: 'turnout', name: 'W', type: 't', enters, leaves }], false, special)[0]!

  it.each(['through', 'diverging'] as const)('ends where its %s leg does, and back again at the points', (leg) => {
    const there = through('points', leg)
    const ends = turnoutEnds(geometry, 'points', START)
    expect(there.end.xMm).toBeCloseTo(ends[leg].xMm, 9)
    expect(there.end.yMm).toBeCloseTo(ends[leg].yMm, 9)
    expect(there.end.headingRad).toBeCloseTo(ends[leg].headingRad, 12)
    const back = through(leg, undefined, { ...there.end, headingRad: there.end.headingRad + Math.PI })
    expect(back.end.xMm).toBeCloseTo(START.xMm, 9)
    expect(back.end.yMm).toBeCloseTo(START.yMm, 9)
    expect(back.turnedRad).toBeCloseTo(-there.turnedRad, 12)
    const again = turnoutEnds(geometry, leg, { ...there.end, headingRad: there.end.headingRad + Math.PI })
    for (const end of ['points', 'through', 'diverging'] as const) {
      expect(again[end].xMm).toBeCloseTo(ends[end].xMm, 9)
      expect(again[end].yMm).toBeCloseTo(ends[end].yMm, 9)
    }
  })

  it('has the places and curvatures of its parts, and rails that differ by b·Δ', () => {
    const element = through('points', 'diverging')
    for (const part of element.parts!) {
      const middle = (part.fromMm + part.toMm) / 2
      expect(poseOn(element, middle)).toEqual(poseOn(part, middle))
      expect(curvatureOn(element, middle)).toBe(part.startCurvature)
    }
    const { fromMm, toMm } = element.parts![0]!
    expect(turnedBetween(element, fromMm, toMm)).toBe(element.parts![0]!.turnedRad)
    const [left, right] = [layRail([element], [], 24), layRail([element], [], -24)]
    expect(right.lengthMm - left.lengthMm).toBeCloseTo(48 * element.turnedRad, 9)
    const middle = (element.parts!.at(-1)!.fromMm + element.toMm) / 2
    expect(stationAtRailDistance(left, railDistanceAt(left, middle))).toBeCloseTo(middle, 6)
  })
})

it('a crossing is the diamond of its gauge lines and a gauge at each end (closed form)', () => {
  expect(crossingLengthMm(45, 90)).toBeCloseTo(135, 10)
  expect(crossingLengthMm(45, 60)).toBeCloseTo(45 * Math.sqrt(3) + 90, 10)
})
