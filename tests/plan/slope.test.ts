import { expect, it } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { slopeLengthMm } from '../../src/plan/slope.ts'
import { planOf, straight } from '../estimate/plans.ts'

it('is the level length without a grade', () => {
  expect(slopeLengthMm({ elements: [straight(700), straight(300)] })).toBe(1000)
})

it('takes each grade along its stretch, by hand: 3-4-5 triangles', () => {
  const line = (points: [number, number][], elevation?: number) =>
    slopeLengthMm({
      elements: [straight(1000)],
      start: { elevation },
      gradeLine: points.map(([at, z]) => ({ at, elevation: z })),
    })
  expect(
    line([
      [0, 0],
      [400, 300],
    ]),
  ).toBeCloseTo(500 + 600, 9)
  expect(
    line([
      [0, 0],
      [400, 300],
      [800, 0],
    ]),
  ).toBeCloseTo(500 + 500 + 200, 9)
  // The grade goes on beyond the end of the track.
  expect(
    line([
      [600, 0],
      [1400, 600],
    ]),
  ).toBeCloseTo(600 + 500, 9)
  expect(line([[400, 300]], 0)).toBeCloseTo(500 + 600, 9)
  expect(line([[400, 300]])).toBe(1000)
})

it('counts for the most sticks a plan may take', () => {
  // By hand: 10 km level are 20,000 sticks of 1 m for two rails; at 75 % they are 12.5 km, 25,000 sticks, and steeper too many.
  const plan = (riseMm: number) =>
    planOf(
      [straight(1e7)],
      {
        gradeLine: [
          { at: 0, elevation: 0 },
          { at: 1e7, elevation: riseMm },
        ],
      },
      {
        supplies: { sticks: [{ length: 1000 }] },
      },
    )
  expect(readPlan(plan(7.49e6)).ok).toBe(true)
  expect(readPlan(plan(7.51e6))).toMatchObject({ ok: false, faults: [{ code: 'too-many' }] })
})
