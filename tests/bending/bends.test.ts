import { describe, expect, it } from 'vitest'
import { bendsOfArc, railRadii, sheetOf } from '../../src/bending/bends.ts'
import { BendFormer } from '../../src/bending/forming/form-bend.ts'
import { railToBend } from '../../src/bending/forming/rail-to-bend.ts'
import type { Turn } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, straight } from '../estimate/plans.ts'
import { HARD_BRASS, RAIL, USUAL_LIMITS } from './rails.ts'

const HEAD_MM = 2.9
const GAUGE_MM = 45
const BY_HAND = {
  work: 'loose-rail',
  roller: null,
  ends: 'finish-by-hand',
  fixedEnd: 'start',
  limits: USUAL_LIMITS,
} as const
const former = new BendFormer(
  railToBend({ section: RAIL, headWidthMm: HEAD_MM }, HARD_BRASS, 'half-hard', [], null),
  BY_HAND,
  45,
)
const plan = { former, gaugeMm: GAUGE_MM, headWidthMm: HEAD_MM, chordsMm: [300, 900], resolutionMm: 0.5 }

/** Ordinate `xMm` beside the middle of a chord (closed form). */
const ordinate = (radiusMm: number, chordMm: number, xMm: number) =>
  Math.sqrt(radiusMm ** 2 - xMm ** 2) - Math.sqrt(radiusMm ** 2 - (chordMm / 2) ** 2)

it('each rail stands half the gauge and half a head off the centre line, its face half a head further in (by hand)', () => {
  expect(railRadii(1000, 'outer', 45, 3)).toEqual({ radiusMm: 1024, measuredRadiusMm: 1022.5 })
  expect(railRadii(1000, 'inner', 45, 3)).toEqual({ radiusMm: 976, measuredRadiusMm: 974.5 })
})

describe('the sheet of a bend', () => {
  it('has the ordinates of each chord that fits, and names those that do not (closed form)', () => {
    const { ordinates, leftOutMm } = sheetOf(1000, 500, plan)
    expect(leftOutMm).toEqual([900])
    expect(ordinates).toEqual([
      {
        chordMm: 300,
        midMm: expect.closeTo(ordinate(1000, 300, 0), 9),
        quarterMm: expect.closeTo(ordinate(1000, 300, 75), 9),
        threeEighthsMm: expect.closeTo(ordinate(1000, 300, 37.5), 9),
        eighthMm: expect.closeTo(ordinate(1000, 300, 112.5), 9),
        radiusErrorPct: expect.any(Number),
      },
    ])
    // 0.5 mm less than 11.31 mm is what 1046 mm have: c²/8v + v/2
    const lessMm = ordinate(1000, 300, 0) - 0.5
    const greatestMm = 300 ** 2 / (8 * lessMm) + lessMm / 2
    expect(ordinates[0]!.radiusErrorPct).toBeCloseTo((greatestMm - 1000) / 10, 9)
  })

  it('of no given length leaves out only chords longer than the diameter', () => {
    expect(sheetOf(1000, null, plan).leftOutMm).toEqual([])
    expect(sheetOf(400, null, plan)).toMatchObject({ leftOutMm: [900], ordinates: [{ chordMm: 300 }] })
  })

  it('recommends the shortest chord that tells the radius to 5 %', () => {
    const { recommendedChordMm, smallestChordMm } = sheetOf(1000, null, plan)
    expect(recommendedChordMm).toBe(300)
    const lessMm = ordinate(1000, smallestChordMm!, 0) - 0.5
    expect((smallestChordMm! ** 2 / (8 * lessMm) + lessMm / 2) / 1000).toBeCloseTo(1.05, 6)
    expect(sheetOf(3000, null, plan).recommendedChordMm).toBe(900)
  })
})

describe('the two bends of an arc', () => {
  const rails = { left: { lengthMm: 500, joints: 0 }, right: { lengthMm: 1500, joints: 2 } }
  const bendsOf = (turn: Turn) => {
    const placed = placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, [straight(100), arc(1000, 60, turn)], false)
    return bendsOfArc('main', placed[1]!, rails, plan, false)
  }

  it('to the left: the outer rail is the right one (by hand)', () => {
    const { bends, leftOut } = bendsOf('left')
    expect(bends).toMatchObject([
      { track: 'main', element: 1, rail: 'outer', side: 'right', turn: 'left', lengthMm: 1500, readyMade: false },
      { rail: 'inner', side: 'left', turn: 'left', lengthMm: 500 },
    ])
    expect(bends.map(({ radiusMm }) => radiusMm)).toEqual([
      expect.closeTo(1000 + 23.95, 9),
      expect.closeTo(1000 - 23.95, 9),
    ])
    // A chord of 900 mm spans 932 mm of arc, for which the inner rail is too short.
    expect(leftOut).toEqual([{ element: 1, rail: 'inner', chordMm: 900, bendLengthMm: 500 }])
    expect(bends.map(({ ordinates }) => ordinates.length)).toEqual([2, 1])
  })

  it('to the right: the outer rail is the left one', () => {
    const { bends, leftOut } = bendsOf('right')
    expect(bends.map(({ rail, side, turn, lengthMm }) => [rail, side, turn, lengthMm])).toEqual([
      ['outer', 'left', 'right', 500],
      ['inner', 'right', 'right', 1500],
    ])
    expect(leftOut.map(({ rail }) => rail)).toEqual(['outer'])
  })

  it('each with the joints of its own rail, and formed by its own radius', () => {
    const [outer, inner] = bendsOf('left').bends
    const joints = ({ forming }: typeof outer & {}) => forming.checks.find(({ reason }) => reason === 'joints')!.value
    expect(joints(outer!)).toBeGreaterThan(0)
    expect(joints(inner!)).toBe(0)
    expect(outer!.forming.formingRadiusMm).toBeGreaterThan(inner!.forming.formingRadiusMm!)
  })
})
