import { describe, expect, it } from 'vitest'
import { formingAlong } from '../../src/bending/easement-forming.ts'
import { forming } from '../../src/bending/springback.ts'
import { HARD_BRASS, IDEAL, RAIL } from './rails.ts'

describe('forming radii along an easement', () => {
  const stations = [0, 150, 300, 450, 600].map((atMm) => ({ atMm, curvaturePerMm: (atMm - 150) / 450 / 1800 }))

  it('are those of each station’s own radius, to either side, and none where it is straight', () => {
    const along = formingAlong(RAIL, HARD_BRASS, stations)
    expect(along.map(({ atMm }) => atMm)).toEqual([0, 150, 300, 450, 600])
    expect(along[1]).toEqual({ atMm: 150, wantedRadiusMm: null, formingRadiusMm: null })
    expect(along[4]!.wantedRadiusMm).toBeCloseTo(1800, 9)
    expect(along[4]!.formingRadiusMm).toBeCloseTo(forming(RAIL, HARD_BRASS, 1800).formingRadiusMm, 9)
    expect(along[0]!.wantedRadiusMm).toBeCloseTo(5400, 9)
    expect(along[0]!.formingRadiusMm).toBeCloseTo(along[2]!.formingRadiusMm!, 9)
  })

  it('tighten from one station to the next', () => {
    const radii = formingAlong(RAIL, IDEAL, stations.slice(2)).map(({ formingRadiusMm }) => formingRadiusMm!)
    expect(radii).toEqual([...radii].sort((a, b) => b - a))
    expect(new Set(radii).size).toBe(3)
  })

  it('are none along nothing', () => {
    expect(formingAlong(RAIL, IDEAL, [])).toEqual([])
  })
})
