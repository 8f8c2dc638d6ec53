import { describe, expect, it } from 'vitest'
import { turnedBack } from '../../src/fitting/turned-back.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, straight } from '../estimate/plans.ts'

const turnedBackOf = (...elements: readonly ElementInput[]) =>
  turnedBack(placeElements({ xMm: 700, yMm: -3, headingRad: 2 }, elements, true), {
    gapMm: 2,
    headingRad: Math.PI / 360,
    minimumRadiusMm: 600,
  })

describe('arcs that turn the other way (by hand)', () => {
  it('in a kidney the dent, turned as the ends are', () => {
    // 200° + 40° + 200° are 80° over a turn; with the dent to the right they are 360°.
    const found = turnedBackOf(
      straight(5500),
      arc(3350, 200),
      straight(600),
      arc(3050, 40),
      straight(600),
      arc(3350, 200),
    )
    expect(found).toEqual([{ element: 3, field: 'turn', to: 'right' }])
  })

  it('in a kidney one end, turned to the right', () => {
    const kidney = [straight(5500), arc(3350, 200), straight(600), arc(3050, 40, 'right'), straight(600)]
    expect(turnedBackOf(...kidney, arc(3350, 200, 'right'))).toEqual([{ element: 5, field: 'turn', to: 'left' }])
  })

  it('easements turn with their arc', () => {
    // Easements of 500 mm to a radius of 2000 mm turn by 500 / 4000 = 7.162° each.
    const eased = 120 - 2 * 7.161972439
    const third = (turn?: 'right') => [easement(500), arc(2000, eased, turn), easement(500)]
    expect(turnedBackOf(...third(), ...third('right'), ...third())).toEqual([{ element: 4, field: 'turn', to: 'left' }])
  })

  it('none where no turn is wrong, or no arc alone makes up for it', () => {
    expect(turnedBackOf(straight(3000), arc(1500, 179), straight(3000), arc(1500, 180))).toEqual([])
    // Half circles lead to the same heading whichever way they turn.
    expect(turnedBackOf(straight(3000), arc(1500, 180), straight(2900), arc(1500, 180))).toEqual([])
    expect(turnedBackOf(straight(3000), arc(1500, 70, 'right'), arc(1500, 180))).toEqual([])
  })

  it('of two that bring the heading home the one that leaves less of a gap comes first', () => {
    const long = [straight(2000), arc(1500, 90), straight(2000), arc(1500, 90), straight(2000), arc(1500, 90)]
    const found = turnedBackOf(...long, straight(2000), arc(1500, 90, 'right'))
    expect(found[0]).toEqual({ element: 7, field: 'turn', to: 'left' })
  })
})
