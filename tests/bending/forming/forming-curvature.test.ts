import { describe, expect, it } from 'vitest'
import { BendFormer } from '../../../src/bending/forming/form-bend.ts'
import type { Bender } from '../../../src/bending/forming/types.ts'
import type { Metal } from '../../../src/bending/metal.ts'
import { forming } from '../../../src/bending/springback.ts'
import { HARD_BRASS, IDEAL, RAIL, USUAL_LIMITS } from '../rails.ts'

const BY_HAND: Bender = {
  work: 'loose-rail',
  roller: null,
  ends: 'finish-by-hand',
  fixedEnd: 'start',
  limits: USUAL_LIMITS,
}

function formerOf(metal: Metal | null): BendFormer {
  const yields = metal && { lowMpa: metal.yieldMpa, highMpa: metal.yieldMpa }
  return new BendFormer(
    { section: RAIL, headWidthMm: 4, basis: 'own', metal, yields, tempers: [], line: null },
    BY_HAND,
    45,
  )
}

describe('the curvature to bend to along an easement', () => {
  const curvatures = [0, 1 / 5400, 1 / 3600, 1 / 1800]

  it('is that of each station’s own radius, and none where it is straight', () => {
    const former = formerOf(HARD_BRASS)
    expect(former.formingCurvature(0)).toBe(0)
    expect(1 / former.formingCurvature(1 / 1800)!).toBeCloseTo(forming(RAIL, HARD_BRASS, 1800).formingRadiusMm, 9)
    expect(1 / former.formingCurvature(1 / 5400)!).toBeCloseTo(forming(RAIL, HARD_BRASS, 5400).formingRadiusMm, 9)
    // asked again, the same
    expect(former.formingCurvature(1 / 1800)).toBe(former.formingCurvature(1 / 1800))
  })

  it('tightens from one station to the next', () => {
    const former = formerOf(IDEAL)
    const formed = curvatures.map((curvature) => former.formingCurvature(curvature)!)
    expect(formed).toEqual([...formed].sort((a, b) => a - b))
    expect(new Set(formed).size).toBe(4)
  })

  it('is not known without a single yield', () => {
    expect(formerOf(null).formingCurvature(1 / 1800)).toBeNull()
  })
})
