import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { GradePoint } from '../../src/plan/rows/track.ts'
import { elevationAt, gradesAlong } from './grade-line.ts'

const line: GradePoint[] = [
  { at: 1000, elevation: 10 },
  { at: 3000, elevation: 50 },
  { at: 4000, elevation: 35 },
]

describe('elevation (by hand)', () => {
  it.each([
    [-100, 10],
    [0, 10],
    [1000, 10],
    [1500, 20],
    [3000, 50],
    [3400, 44],
    [4000, 35],
    [9000, 35],
  ])('at %d mm: %d mm', (atMm, elevationMm) => {
    expect(elevationAt(line, atMm)).toBeCloseTo(elevationMm, 12)
  })

  it('no points are level at 0, one point is level at its height', () => {
    expect(elevationAt([], 500)).toBe(0)
    expect(elevationAt([{ at: 700, elevation: 12 }], 0)).toBe(12)
    expect(elevationAt([{ at: 700, elevation: 12 }], 700)).toBe(12)
    expect(elevationAt([{ at: 700, elevation: 12 }], 900)).toBe(12)
  })
})

describe('two points at one station, a step', () => {
  const step = [
    { at: 0, elevation: 0 },
    { at: 1000, elevation: 20 },
    { at: 1000, elevation: 30 },
    { at: 2000, elevation: 30 },
  ]

  it('the later one holds from there on', () => {
    expect(elevationAt(step, 999.5)).toBeCloseTo(19.99, 9)
    expect(elevationAt(step, 1000)).toBe(30)
  })

  it('has no grade of its own', () => {
    expect(gradesAlong(step, 1500)).toEqual([
      { fromMm: 0, toMm: 1000, grade: 0.02 },
      { fromMm: 1000, toMm: 1500, grade: 0 },
    ])
  })
})

describe('grades along a track (by hand)', () => {
  it('level, up 2 %, down 1.5 %, level', () => {
    expect(gradesAlong(line, 5000)).toEqual([
      { fromMm: 0, toMm: 1000, grade: 0 },
      { fromMm: 1000, toMm: 3000, grade: 0.02 },
      { fromMm: 3000, toMm: 4000, grade: -0.015 },
      { fromMm: 4000, toMm: 5000, grade: 0 },
    ])
  })

  it('a track that ends within a grade', () => {
    expect(gradesAlong(line, 2000)).toEqual([
      { fromMm: 0, toMm: 1000, grade: 0 },
      { fromMm: 1000, toMm: 2000, grade: 0.02 },
    ])
    expect(gradesAlong(line, 3000).at(-1)).toEqual({ fromMm: 1000, toMm: 3000, grade: 0.02 })
  })

  it('no points, one point: level throughout', () => {
    const level = [{ fromMm: 0, toMm: 800, grade: 0 }]
    expect(gradesAlong([], 800)).toEqual(level)
    expect(gradesAlong([{ at: 0, elevation: 5 }], 800)).toEqual(level)
    expect(gradesAlong([{ at: 300, elevation: 5 }], 800)).toEqual(level)
    expect(gradesAlong([{ at: 2000, elevation: 5 }], 800)).toEqual(level)
    expect(gradesAlong([], 0)).toEqual([])
  })

  it('a point in the middle of a level stretch does not divide it', () => {
    const flat = [0, 400, 900].map((at) => ({ at, elevation: 7 }))
    expect(gradesAlong(flat, 1000)).toEqual([{ fromMm: 0, toMm: 1000, grade: 0 }])
  })

  it('the stretches cover the track without a gap and add up to its rise', () => {
    const points = fc
      .uniqueArray(fc.integer({ min: 0, max: 20_000 }), { minLength: 1, maxLength: 12 })
      .chain((stations) =>
        fc
          .array(fc.double({ min: -500, max: 500, noNaN: true }), {
            minLength: stations.length,
            maxLength: stations.length,
          })
          .map((heights) =>
            [...stations].sort((a, b) => a - b).map((at, index) => ({ at, elevation: heights[index]! })),
          ),
      )
    fc.assert(
      fc.property(points, fc.double({ min: 0.1, max: 30_000, noNaN: true }), (gradeLine, lengthMm) => {
        const grades = gradesAlong(gradeLine, lengthMm)
        expect(grades[0]!.fromMm).toBe(0)
        expect(grades.at(-1)!.toMm).toBe(lengthMm)
        for (let index = 1; index < grades.length; index++) expect(grades[index]!.fromMm).toBe(grades[index - 1]!.toMm)
        const rise = grades.reduce((sum, { fromMm, toMm, grade }) => sum + (toMm - fromMm) * grade, 0)
        expect(Math.abs(rise - (elevationAt(gradeLine, lengthMm) - elevationAt(gradeLine, 0)))).toBeLessThan(1e-8)
      }),
    )
  })
})
