import { describe, expect, it } from 'vitest'
import { evenStations, verticalCurve } from '../../src/track/vertical-curve.ts'

const HUMP = { fromMm: 1000, elevationMm: 50, lengthMm: 1200, gradeInPct: 2, gradeOutPct: -1 }

describe('a vertical curve', () => {
  it('leaves with the grade out, at the place where the two straights lead', () => {
    const end = verticalCurve(HUMP, [2200]).points[0]!
    // By hand: 600 mm up at 2 %, 600 mm down at 1 %.
    expect(end).toEqual({ atMm: 2200, elevationMm: 50 + 12 - 6, gradePct: -1 })
  })

  it('is the same seen from the other end', () => {
    const there = verticalCurve(HUMP, evenStations(HUMP, 7))
    const elevationMm = there.points.at(-1)!.elevationMm
    const reversed = { ...HUMP, elevationMm, gradeInPct: 1, gradeOutPct: -2 }
    const back = verticalCurve(reversed, evenStations(reversed, 7))
    expect(back.externalMm).toBeCloseTo(there.externalMm, 12)
    expect(back.points.map((point) => point.elevationMm).reverse()).toEqual(
      there.points.map((point) => expect.closeTo(point.elevationMm, 10)),
    )
    expect(back.turning!.elevationMm).toBeCloseTo(there.turning!.elevationMm, 10)
    expect(back.turning!.atMm - 1000).toBeCloseTo(2200 - there.turning!.atMm, 10)
  })

  it('has no turning point where the track keeps climbing, and none where nothing changes', () => {
    expect(verticalCurve({ ...HUMP, gradeOutPct: 0.5 }, []).turning).toBeNull()
    expect(verticalCurve({ ...HUMP, gradeOutPct: 2 }, [])).toEqual({
      externalMm: 0,
      radiusMm: null,
      turning: null,
      points: [],
    })
  })

  it('turns at its end where it leaves level', () => {
    expect(verticalCurve({ ...HUMP, gradeOutPct: 0 }, []).turning).toEqual({ atMm: 2200, elevationMm: 62 })
  })

  it('has the radius L/A', () => {
    // Closed form: 1200 mm over a change of 3 %.
    expect(verticalCurve(HUMP, []).radiusMm).toBeCloseTo(40_000, 9)
  })
})
