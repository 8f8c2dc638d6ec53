import { describe, expect, it } from 'vitest'
import type { GradePoint } from '../../src/plan/rows/track.ts'
import { elevationOn, gradeOn, gradesOn, profileOf, profileOfGrades } from '../../src/track/grade.ts'
import { levelAt, profileAnswer } from '../../src/track/profile.ts'
import { verticalCurve } from '../../src/track/vertical-curve.ts'

/** Up 2 % for 3 m, over a hump of 1200 mm, down 1 %, into a dip of 800 mm at 6 m, up 0.5 %. By hand. */
const LINE: GradePoint[] = [
  { at: 0, gradePct: 2 },
  { at: 3000, gradePct: -1, verticalCurve: 1200 },
  { at: 6000, gradePct: 0.5, verticalCurve: 800 },
]
const profile = profileOf(LINE, 100)

describe('a profile with vertical curves', () => {
  it('is the parabola between two grades', () => {
    const hump = { fromMm: 2400, elevationMm: 148, lengthMm: 1200, gradeInPct: 2, gradeOutPct: -1 }
    const stations = [2400, 2500, 3000, 3200, 3599]
    for (const point of verticalCurve(hump, stations).points) {
      expect(elevationOn(profile, point.atMm)).toBeCloseTo(point.elevationMm, 10)
      expect(100 * gradeOn(profile, point.atMm)).toBeCloseTo(point.gradePct, 10)
    }
    // At the vertex e = 3 % × 1200/8 below where the grades meet.
    expect(elevationOn(profile, 3000)).toBeCloseTo(160 - 4.5, 10)
    expect(elevationOn(profile, 7000)).toBeCloseTo(130 + 5, 10)
  })

  it('is continuous in height and grade', () => {
    for (const atMm of [2400, 3600, 5600, 6400]) {
      expect(elevationOn(profile, atMm - 1e-6)).toBeCloseTo(elevationOn(profile, atMm), 6)
      expect(gradeOn(profile, atMm - 1e-6)).toBeCloseTo(gradeOn(profile, atMm), 6)
    }
  })

  it('has straight grades and curves in turn', () => {
    expect(gradesOn(profile, 7000).map(({ fromMm, toMm, endGrade }) => [fromMm, toMm, endGrade !== undefined])).toEqual(
      [
        [0, 2400, false],
        [2400, 3600, true],
        [3600, 5600, false],
        [5600, 6400, true],
        [6400, 7000, false],
      ],
    )
  })

  it('is the same from its grades', () => {
    const again = profileOfGrades(100, gradesOn(profile, 7000))
    for (let atMm = 0; atMm <= 7000; atMm += 350)
      expect(elevationOn(again, atMm)).toBeCloseTo(elevationOn(profile, atMm), 9)
  })

  it('may have curves that touch', () => {
    const touching = profileOf([
      { at: 0, gradePct: 2 },
      { at: 1000, gradePct: 0, verticalCurve: 1000 },
      { at: 2000, gradePct: 2, verticalCurve: 1000 },
    ])
    expect(gradesOn(touching, 2500).map(({ toMm }) => toMm)).toEqual([500, 1500, 2500])
    expect(elevationOn(touching, 1500)).toBeCloseTo(20, 10)
  })
})

describe('the answer about a profile', () => {
  const answer = (line: GradePoint[], lengthMm: number, shortGradeMm: number | null = null) => {
    const ofLine = profileOf(line)
    return profileAnswer(ofLine, gradesOn(ofLine, lengthMm), { lengthMm, shortGradeMm })
  }

  it('has the points where something changes, with the grade that begins', () => {
    expect(answer(LINE, 7000).points.map(({ atMm, gradePct }) => [atMm, Number(gradePct.toFixed(9))])).toEqual([
      [0, 2],
      [2400, 2],
      [3600, -1],
      [5600, -1],
      [6400, 0.5],
      [7000, 0.5],
    ])
  })

  it('finds summit and sag within the curves', () => {
    // By hand: level 2/3 into the hump, and 2/3 into the dip: at 2400 + 800 and 5600 + 533.33.
    expect(answer(LINE, 7000).extremes).toEqual([
      { kind: 'summit', atMm: expect.closeTo(3200, 9), elevationMm: expect.closeTo(48 + 8, 9) },
      { kind: 'sag', atMm: expect.closeTo(5600 + 800 / 1.5, 9), elevationMm: expect.closeTo(34 - 8 / 3, 9) },
    ])
  })

  it('finds them where grades meet without a curve, and where the track becomes level between', () => {
    const points = [
      { at: 0, elevation: 0 },
      { at: 1000, elevation: 20 },
      { at: 2000, elevation: 20 },
      { at: 3000, elevation: 0 },
      { at: 4000, elevation: 10 },
    ]
    expect(answer(points, 4000).extremes).toEqual([
      { kind: 'summit', atMm: 1000, elevationMm: 20 },
      { kind: 'sag', atMm: 3000, elevationMm: 0 },
    ])
    // Level after a rise, and then rising again, is neither.
    expect(answer([...points.slice(0, 3), { at: 3000, elevation: 40 }], 3000).extremes).toEqual([])
    expect(answer([], 1000).extremes).toEqual([])
  })

  it('has the steepest grade, and the ruling one without short ones', () => {
    const points = [
      { at: 0, gradePct: 1.5 },
      { at: 4000, gradePct: -3 },
      { at: 4800, gradePct: 2 },
      { at: 5500, gradePct: 2.5 },
      { at: 6000, gradePct: 0 },
    ]
    expect(answer(points, 8000)).toMatchObject({ steepestPct: expect.closeTo(3, 9), rulingPct: expect.closeTo(3, 9) })
    // By hand: 3 % for 800 mm and 2.5 % for 500 mm are short, 2 % and more for 1200 mm is not.
    expect(answer(points, 8000, 1000).rulingPct).toBeCloseTo(2, 9)
    expect(answer(points, 8000, 1200).rulingPct).toBeCloseTo(1.5, 9)
    expect(answer(points, 8000, 5000).rulingPct).toBe(0)
    expect(answer([], 8000, 1000)).toMatchObject({ steepestPct: 0, rulingPct: 0 })
  })

  it('gives elevation and grade at a station', () => {
    expect(levelAt(profile, 1000)).toEqual({ atMm: 1000, elevationMm: 120, gradePct: 2 })
  })
})
