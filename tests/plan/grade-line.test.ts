import { describe, expect, it } from 'vitest'
import { elevationMissed, gradeNodes } from '../../src/plan/grade-line.ts'

/** All expected heights by hand. */
const heights = (...given: Parameters<typeof gradeNodes>) =>
  gradeNodes(...given).map(({ atMm, elevationMm }) => [atMm, elevationMm])

describe('the points of a grade line', () => {
  it('with elevations are as given, level before the first', () => {
    expect(heights([{ at: 1000, elevation: 30 }])).toEqual([
      [0, 30],
      [1000, 30],
    ])
    expect(heights([{ at: 1000, elevation: 30 }], 10)).toEqual([
      [0, 10],
      [1000, 30],
    ])
    expect(heights([])).toEqual([[0, 0]])
    expect(heights([], 7)).toEqual([[0, 7]])
  })

  it('with grades follow from the start', () => {
    const points = [
      { at: 0, gradePct: 2 },
      { at: 1000, gradePct: 0 },
      { at: 3000, gradePct: -1 },
      { at: 4000, elevation: 10 },
    ]
    expect(heights(points.slice(0, 3), 5)).toEqual([
      [0, 5],
      [1000, 25],
      [3000, 25],
    ])
    // Without an elevation at the start, from the one that the grades lead to.
    expect(heights(points)).toEqual([
      [0, 0],
      [1000, 20],
      [3000, 20],
      [4000, 10],
    ])
  })

  it('with a grade after an elevation that is not given are level up to it', () => {
    expect(
      heights([
        { at: 0, elevation: 5 },
        { at: 1000, gradePct: 2 },
        { at: 2000, gradePct: 0 },
      ]),
    ).toEqual([
      [0, 5],
      [1000, 5],
      [2000, 25],
    ])
  })

  it('with a grade that leads to an elevation begin where it says', () => {
    expect(
      heights([
        { at: 0, elevation: 5 },
        { at: 1000, gradePct: 2 },
        { at: 3000, elevation: 65 },
      ]),
    ).toEqual([
      [0, 5],
      [1000, 25],
      [3000, 65],
    ])
  })

  it('may contradict the elevation of the start', () => {
    const points = [
      { at: 0, gradePct: 2 },
      { at: 1000, elevation: 20 },
    ]
    expect(elevationMissed(points, 5)).toEqual({ point: 1, reachedMm: 25 })
    expect(elevationMissed(points, null)).toBeNull()
    expect(elevationMissed([{ at: 0, elevation: 5 }], 5)).toBeNull()
    expect(elevationMissed([{ at: 0, gradePct: 2 }], 5)).toBeNull()
  })
})
