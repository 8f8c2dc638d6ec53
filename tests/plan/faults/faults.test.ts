import { describe, expect, it } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import type { PlanInput } from '../../../src/plan/rows/plan.ts'
import type { TrackInput } from '../../../src/plan/rows/track.ts'
import { arc, BRASS_250, easement, planOf, straight } from '../../estimate/plans.ts'

const pointers = (plan: PlanInput) => planFaults(plan).map(({ path, code }) => `/${path.join('/')} ${code}`)

describe('easements', () => {
  it.each([
    ['between two tangents', [straight(1), easement(1), straight(1)], false, ['1 easement-without-change']],
    ['between equal arcs', [arc(900, 9), easement(1), arc(900, 30)], false, ['1 easement-without-change']],
    ['between arcs of opposite turn', [arc(900, 9), easement(1), arc(900, 30, 'right')], false, []],
    ['side by side', [arc(900, 9), easement(1), easement(2), straight(1)], false, ['1 adjacent-easements']],
    [
      'three in a row',
      [arc(900, 9), easement(1), easement(1), easement(1)],
      false,
      ['1 adjacent-easements', '2 adjacent-easements'],
    ],
    ['at the start, before an arc', [easement(1), arc(900, 9)], false, []],
    ['at the start, before a tangent', [easement(1), straight(9)], false, ['0 easement-without-change']],
    ['alone', [easement(1)], false, ['0 easement-without-change']],
    ['alone, closed', [easement(1)], true, ['0 adjacent-easements']],
    ['side by side across the join', [easement(1), arc(900, 9), easement(1)], true, ['2 adjacent-easements']],
    ['the same, open', [easement(1), arc(900, 9), easement(1)], false, []],
    [
      'wrapped round between equal arcs',
      [arc(900, 9), straight(1), arc(900, 9), easement(1)],
      true,
      ['3 easement-without-change'],
    ],
  ])('%s', (_, elements, closed, expected) => {
    expect(pointers(planOf(elements, { closed }))).toEqual(expected.map((rest) => `/tracks/0/elements/${rest}`))
  })
})

it('a radius that leaves the inner rail none is refused: at most (gauge + 2·headWidth)/2', () => {
  // by hand: (45 + 2 × 0.112 × 25.4)/2 = 25.3448
  expect(pointers(planOf([arc(25.3448, 9)]))).toEqual(['/tracks/0/elements/0/radius out-of-range'])
  expect(pointers(planOf([arc(25.345, 9)]))).toEqual([])
  expect(pointers(planOf([arc(25.345, 9)], {}, { gauge: 89 }))).toHaveLength(1)
})

it('names of tracks are unique, and a closed track joins nothing else', () => {
  const track = (more: Partial<TrackInput>): TrackInput => ({ name: 'main', elements: [straight(9)], ...more })
  const tracks = [track({}), track({ closed: true, joinsExisting: { start: true } }), track({ name: 'spur' })]
  expect(pointers({ rail: BRASS_250, tracks })).toEqual([
    '/tracks/1/name duplicate-name',
    '/tracks/1/joinsExisting contradictory',
  ])
})

it('a grade line runs forward and begins where the track does', () => {
  const line = (points: [number, number][], elevation?: number) =>
    pointers(
      planOf([straight(9000)], {
        start: { elevation },
        gradeLine: points.map(([at, z]) => ({ at, elevation: z })),
      }),
    )
  expect(
    line([
      [0, 0],
      [500, 9],
      [500, 9],
      [400, 3],
    ]),
  ).toEqual(['/tracks/0/gradeLine/2/at out-of-order', '/tracks/0/gradeLine/3/at out-of-order'])
  expect(line([[0, 10]], 20)).toEqual(['/tracks/0/gradeLine/0/elevation contradictory'])
  expect(line([[0, 20]], 20)).toEqual([])
  expect(line([[100, 10]], 20)).toEqual([])
})

it('supplies make sense', () => {
  const supplies = (more: PlanInput['supplies']) => pointers(planOf([straight(9)], {}, { supplies: more }))
  const stick = (length: number, more = {}) => ({ length, ...more })
  expect(supplies({ sticks: [stick(1524), stick(1828.8), stick(1524)] })).toEqual([
    '/supplies/sticks/2/length duplicate-length',
  ])
  expect(supplies({ sticks: [stick(1524, { buyable: false })] })).toEqual(['/supplies/sticks no-rail'])
  expect(supplies({ sticks: [stick(1524, { buyable: false, onHand: 1 })] })).toEqual([])
  expect(supplies({ minimumPiece: 1600 })).toEqual(['/supplies/minimumPiece contradictory'])
  expect(supplies({ sticks: [stick(100)] })).toEqual(['/supplies/sticks contradictory'])
  expect(supplies({ kerf: 2000 })).toEqual(['/supplies/kerf contradictory'])
  expect(supplies({})).toEqual([])
})
