import { expect, test } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { Line } from '../../src/room/line.ts'
import { frogAngleRad } from '../../src/track/turnout/frog.ts'
import { loopPlan } from '../estimate/turnout-plans.ts'

const F = frogAngleRad(6, 'half-cot')

const CARS = [
  { name: 'coach', length: 700, truckCentres: 480, width: 130, couplerLength: 20 },
  { name: 'engine', length: 400, truckCentres: 200, width: 140, couplerLength: 20 },
  { name: 'goods', length: 350, truckCentres: 220, width: 120, couplerLength: 20 },
]

/** Passing loops side by side, with sidings of other radii, and plain tracks: 200 tracks with 100 turnouts. */
function yard(radiusOf: (loop: number) => number, kinds = 1) {
  const { tracks: _, ...plan } = loopPlan()
  const loops = Array.from({ length: 50 }, (_, n) => {
    const radius = radiusOf(n)
    const mm = (60 - radius * (1 - Math.cos(F))) / Math.sin(F)
    const tangent = (length: number) => ({ kind: 'tangent', length })
    const arc = { kind: 'arc', radius, angle: (F * 180) / Math.PI, turn: 'right' }
    const turnout = (side: number, type: string, enters: string) => ({
      ...{ kind: 'turnout', name: `W${n}.${side}`, type, enters },
    })
    const betweenMm = 2000 + 2 * (mm * Math.cos(F) + radius * Math.sin(F))
    const leg = (side: number) => ({ turnout: `W${n}.${side}`, leg: 'diverging' })
    return [
      {
        name: `main ${n}`,
        start: { y: 1000 * n },
        elements: [
          tangent(1000),
          turnout(1, 'six-left', 'points'),
          tangent(betweenMm),
          turnout(2, 'six-right', 'through'),
          tangent(1000),
        ],
      },
      {
        name: `siding ${n}`,
        start: { from: leg(1) },
        end: { to: leg(2) },
        elements: [tangent(mm), arc, tangent(2000), arc, tangent(mm)],
      },
    ]
  })
  const plain = Array.from({ length: 100 }, (_, n) => ({
    name: `plain ${n}`,
    start: { y: -1000 * (n + 1) },
    elements: [{ kind: 'tangent', length: 3000 }],
  }))
  return { ...plan, cars: CARS.slice(0, kinds), tracks: [...loops.flat(), ...plain] }
}

/** Places of lines looked up for an estimate: the work of cars, whatever the machine does beside it. */
function posesLookedUp(plan: object): number {
  const { poseAt } = Line.prototype
  let poses = 0
  Line.prototype.poseAt = function counted(atMm) {
    poses++
    return poseAt.call(this, atMm)
  }
  try {
    const read = readPlan(plan)
    // Without what was sent no remedies are tried.
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const result = estimate(read.plan, { parts: ['ways', 'standing', 'findings'] })
    expect(result.ok && result.estimate.standing).toHaveLength(50 * 4 + 100)
    return poses
  } finally {
    Line.prototype.poseAt = poseAt
  }
}

test('200 tracks with 100 turnouts take a bounded number of places on lines, and few where turnouts are alike', () => {
  // 0.3 µs each: 100,000 are 30 ms. Most of them tell whether cars on a siding clear those on the track beside it.
  const [differing, alike] = [posesLookedUp(yard((n) => 2500 + 10 * n)), posesLookedUp(yard(() => 3000))]
  expect(differing).toBeLessThan(300_000)
  expect(alike).toBeLessThan(110_000)
  // Cars that reach less than another anywhere are not placed to find where it clears: 665,000 otherwise.
  expect(posesLookedUp(yard((n) => 2500 + 10 * n, 3))).toBeLessThan(630_000)
})
