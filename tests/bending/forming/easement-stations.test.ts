import { describe, expect, it } from 'vitest'
import { formEasement } from '../../../src/bending/forming/easement-stations.ts'
import { BendFormer } from '../../../src/bending/forming/form-bend.ts'
import { type RailToBend, railToBend } from '../../../src/bending/forming/rail-to-bend.ts'
import { restingRadiusMm } from '../../../src/bending/springback.ts'
import { MATERIALS } from '../../../src/catalogue/materials.ts'
import { placeElements } from '../../../src/track/place.ts'
import { layRail } from '../../../src/track/rails.ts'
import { arc, easement, straight } from '../../estimate/plans.ts'
import { HARD_BRASS, RAIL, USUAL_LIMITS } from '../rails.ts'

const OFFSET_MM = 23.95
const BY_HAND = {
  work: 'loose-rail',
  roller: null,
  ends: 'finish-by-hand',
  fixedEnd: 'start',
  limits: USUAL_LIMITS,
} as const
const brass = (basis: string | null): RailToBend =>
  railToBend({ section: RAIL, headWidthMm: 2.9 }, HARD_BRASS, basis, MATERIALS[0]!.tempers, null)

/** An easement of 800 mm out of a straight into a curve of 1000 mm to the left, on its right or left rail. */
function formed(side: 'left' | 'right', rail = brass('half-hard')) {
  const elements = [straight(500), easement(800), arc(1000, 30)]
  const placed = placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, elements, false)
  const line = layRail(placed, [], side === 'left' ? OFFSET_MM : -OFFSET_MM)
  return formEasement('main', placed[1]!, side, line, new BendFormer(rail, BY_HAND, 45))
}

describe('an easement', () => {
  it('is marked at its ends and every eighth, by distance along its own rail (closed form)', () => {
    const outer = formed('right')
    expect(outer).toMatchObject({ track: 'main', element: 1, side: 'right' })
    // After the share p of the easement the heading has turned p²·0.4 rad, and the outer rail is longer by as much.
    const at = Array.from({ length: 9 }, (_, part) => 100 * part + (OFFSET_MM * 0.4 * part ** 2) / 64)
    expect(outer.stations.map(({ atMm }) => atMm)).toEqual(at.map((mm) => expect.closeTo(mm, 6)))
    expect(formed('left').stations.at(-1)!.atMm).toBeCloseTo(800 - 0.4 * OFFSET_MM, 6)
  })

  it('wants the radius of the centre line there and half the distance of the rails (by hand)', () => {
    const wanted = (side: 'left' | 'right') => formed(side).stations.map(({ wantedRadiusMm }) => wantedRadiusMm)
    const [straightEnd, ...outer] = wanted('right')
    expect(straightEnd).toBeNull()
    expect(outer).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((part) => expect.closeTo(8000 / part + OFFSET_MM, 6)))
    expect(wanted('left').at(-1)).toBeCloseTo(1000 - OFFSET_MM, 6)
  })

  it('is bent to radii that spring back to the wanted ones', () => {
    const [straightEnd, ...rest] = formed('right').stations
    expect(straightEnd!.formingRadiusMm).toBeNull()
    for (const { formingRadiusMm, wantedRadiusMm } of rest)
      expect(restingRadiusMm(RAIL, HARD_BRASS, formingRadiusMm!)! / wantedRadiusMm!).toBeCloseTo(1, 8)
  })

  it('of a metal without a single yield tells only what is wanted', () => {
    const { stations } = formed('right', brass(null))
    expect(stations.map(({ formingRadiusMm }) => formingRadiusMm)).toEqual(Array(9).fill(null))
    expect(stations.at(-1)!.wantedRadiusMm).toBeCloseTo(1000 + OFFSET_MM, 6)
  })

  it('out of a curve is its mirror image', () => {
    const placed = placeElements(
      { xMm: 0, yMm: 0, headingRad: 0 },
      [arc(1000, 30, 'right'), easement(800), straight(500)],
      false,
    )
    const former = new BendFormer(brass('half-hard'), BY_HAND, 45)
    const { stations } = formEasement('main', placed[1]!, 'left', layRail(placed, [], OFFSET_MM), former)
    expect(stations[0]!.atMm).toBe(0)
    expect(stations[0]!.wantedRadiusMm).toBeCloseTo(1000 + OFFSET_MM, 6)
    expect(stations[4]!.wantedRadiusMm).toBeCloseTo(2000 + OFFSET_MM, 6)
    expect(stations[8]!.wantedRadiusMm).toBeNull()
  })
})
