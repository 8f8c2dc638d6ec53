import { describe, expect, it } from 'vitest'
import { formEasement } from '../../../src/bending/forming/easement-stations.ts'
import { BendFormer } from '../../../src/bending/forming/form-bend.ts'
import { type RailToBend, railToBend } from '../../../src/bending/forming/rail-to-bend.ts'
import type { Bender } from '../../../src/bending/forming/types.ts'
import { restingRadiusMm } from '../../../src/bending/springback.ts'
import { MATERIALS } from '../../../src/catalogue/materials.ts'
import type { ElementInput } from '../../../src/plan/rows/track.ts'
import { placeElements } from '../../../src/track/place.ts'
import { layRail } from '../../../src/track/rails.ts'
import { arc, easement, straight } from '../../estimate/plans.ts'
import { HARD_BRASS, RAIL, ROLLS, USUAL_LIMITS } from '../rails.ts'
import { lawOf, rolledThrough } from '../roller/simulated-rail.ts'

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

describe('an easement in the bender', () => {
  const inBender = { ...BY_HAND, roller: { ...ROLLS, maxPerPassMm: 0.2 } }
  const placedAs = (elements: ElementInput[]) => placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, elements, false)
  const along = (elements: ElementInput[], side: 'left' | 'right' = 'right', bender: Bender = inBender, index = 1) => {
    const placed = placedAs(elements)
    const line = layRail(placed, [], side === 'left' ? OFFSET_MM : -OFFSET_MM)
    const former = new BendFormer(brass('half-hard'), bender, 45)
    return { former, ...formEasement('main', placed[index]!, side, line, former) }
  }
  const INTO_LEFT = [straight(500), easement(800), arc(1000, 30)]

  it('starts at nothing and gets deeper up to the last pass of its curve, with the turns of the screw', () => {
    const { stations, former } = along(INTO_LEFT)
    expect(stations[0]).toMatchObject({ depthMm: 0, turns: 0 })
    const depths = stations.map(({ depthMm }) => depthMm!)
    expect(depths).toEqual([...depths].sort((a, b) => a - b))
    expect(new Set(depths).size).toBe(9)
    const curve = { rail: 'outer', radiusMm: 1000 + OFFSET_MM, trackRadiusMm: 1000, gaugeMm: 45 } as const
    const { machine } = former.form({ ...curve, turnedRad: 0.5, jointsInBend: 0 })
    expect(depths[8]).toBeCloseTo(machine!.depthMm, 6)
    for (const { depthMm, turns } of stations) expect(turns).toBeCloseTo(depthMm! / 1.25, 12)
  })

  it('leaves the wanted radius at each place, if each pass goes no deeper there than the place says', () => {
    const { stations, former } = along(INTO_LEFT)
    const curve = { rail: 'outer', radiusMm: 1000 + OFFSET_MM, trackRadiusMm: 1000, gaugeMm: 45 } as const
    const { passes } = former.form({ ...curve, turnedRad: 0.5, jointsInBend: 0 }).machine!
    expect(passes.length).toBeGreaterThan(3)
    const law = lawOf(RAIL, HARD_BRASS, 1 / 100)
    for (const { depthMm, wantedRadiusMm } of stations.slice(1)) {
      const depths = passes.map((pass) => Math.min(pass.depthMm, depthMm!))
      const curvature = rolledThrough(RAIL, ROLLS, law, depths).at(-1)!
      expect(Math.abs(1 / curvature / wantedRadiusMm! - 1)).toBeLessThan(5e-3)
    }
  })

  it('out of a curve and to the other hand are mirror images', () => {
    const into = along(INTO_LEFT).stations.map(({ depthMm }) => depthMm)
    const outOf = along([arc(1000, 30, 'right'), easement(800), straight(500)], 'left').stations
    expect(outOf.map(({ depthMm }) => depthMm).toReversed()).toEqual(into)
    const toTheRight = along([straight(500), easement(800), arc(1000, 30, 'right')], 'left').stations
    expect(toTheRight.map(({ depthMm }) => depthMm)).toEqual(into)
  })

  it('between curves of either hand has the passes of each on its side, and nothing between', () => {
    const { stations } = along([arc(1000, 30), easement(1600), arc(1000, 30, 'right')])
    const depths = stations.map(({ depthMm }) => depthMm!)
    expect(depths[4]).toBe(0)
    expect(depths[0]).toBeGreaterThan(depths[2]!)
    // The right rail is the outer one of the first curve and the inner one of the second, which is tighter.
    expect(depths[8]).toBeGreaterThan(depths[0]!)
  })

  it('is set however short it is, and in a press', () => {
    expect(along([straight(500), easement(0.01), arc(1000, 30)]).stations.at(-1)!.depthMm).toBeGreaterThan(0)
    const pressed = { ...BY_HAND, roller: { ...ROLLS, mode: 'pressed', maxPerPassMm: null } } as const
    const depths = along(INTO_LEFT, 'right', pressed).stations.map(({ depthMm }) => depthMm!)
    expect(depths).toEqual([...depths].sort((a, b) => a - b))
  })

  it('has no depth without rollers, nor where they cannot reach so deep', () => {
    const depths = (bender: Bender, radiusMm = 1000) =>
      along([straight(500), easement(100), arc(radiusMm, 30)], 'left', bender).stations.map(({ depthMm }) => depthMm)
    expect(depths(BY_HAND)).toEqual(Array(9).fill(null))
    const far = { ...BY_HAND, roller: { ...ROLLS, spanMm: 300, maxPerPassMm: null } }
    expect(depths(far, 50).at(-1)).toBeNull()
    expect(depths(far, 50)[1]).not.toBeNull()
  })
})
