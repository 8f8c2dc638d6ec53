import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { overhangOn } from '../../src/room/overhang.ts'
import { remediesCarriedOut } from './carried-out.ts'
import { asSent } from './turnout-plans.ts'
import { worked } from './worked.ts'

const COACH = { name: 'coach', length: 700, truckCentres: 500, width: 130 }
const corners = (...list: [number, number][]) => list.map(([x, y]) => ({ x, y }))
const garden = (edge: number) => corners([-500, -edge], [6500, -edge], [6500, 3000], [-500, 3000])
const sent = (outline: object[], more: object = {}) => ({
  ...asSent(),
  cars: [COACH],
  outline,
  standards: { minimumTangentBetweenReverseCurves: 100, minimumRadius: 600 },
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 6000 }] }],
  ...more,
})
const found = (plan: object) => worked(plan).findings.filter(({ rule }) => rule === 'outline')

describe('the outline of the garden', () => {
  it('is reached by half the width of a car on a straight, and at the limit is not left', () => {
    expect(found(sent(garden(65)))).toEqual([])
    expect(found(sent(garden(60)))).toMatchObject([
      {
        severity: 'stop',
        track: 'main',
        element: 0,
        measured: expect.closeTo(5, 3),
        message: expect.stringMatching(
          /^On main, coach reaches over the outline of the garden: by 5 mm at .*on the right, cars included; it is outside from 0 mm to 6000 mm\.$/,
        ),
        cure: 'Move the track there 5 mm to the left, or move the outline.',
      },
    ])
  })

  it('on a curve is reached by the corners of the car: closed form', () => {
    const { outsideReachMm } = overhangOn(2000, { lengthMm: 700, truckCentresMm: 500, widthMm: 130 })
    const tracks = [
      {
        name: 'round',
        closed: true,
        start: { x: 3000, y: 3000 },
        elements: [{ kind: 'arc', radius: 2000, angle: 360, turn: 'left' }],
      },
    ]
    const edge = 3000 - outsideReachMm
    const box = (y: number) => corners([0, y], [9000, y], [9000, 9000], [0, 9000])
    expect(found(sent(box(edge - 0.1), { tracks }))).toEqual([])
    expect(found(sent(box(edge + 0.5), { tracks }))).toMatchObject([{ measured: expect.closeTo(0.5, 2) }])
  })

  it('a corner that points into the garden is in the way like a post', () => {
    const notched = corners(
      [-500, -900],
      [2990, -900],
      [3000, -58],
      [3010, -900],
      [6500, -900],
      [6500, 900],
      [-500, 900],
    )
    expect(found(sent(notched))).toMatchObject([{ measured: expect.closeTo(7, 2) }])
  })

  it('a track that is outside itself is told so, and one that lies all outside as well', () => {
    const [finding] = found(sent(garden(-50)))
    expect(finding).toMatchObject({
      measured: expect.closeTo(115, 3),
      message: expect.stringContaining('main itself leaves'),
    })
    const far = corners([0, 50_000], [1000, 50_000], [1000, 51_000], [0, 51_000])
    expect(found(sent(far))[0]!.measured).toBeLessThan(60_000)
  })

  it('is the same whichever way round its corners are listed, and for a mirrored plan', () => {
    const reversed = garden(60).reverse()
    const mirrored = garden(60).map(({ x, y }) => ({ x, y: -y }))
    expect(found(sent(reversed))[0]!.measured).toBeCloseTo(5, 3)
    expect(found(sent(mirrored))[0]).toMatchObject({
      measured: expect.closeTo(5, 3),
      cure: expect.stringContaining('to the right'),
    })
  })

  it('the track is moved inside by its remedy', () => {
    expect(remediesCarriedOut(sent(garden(60)), 'outline')[0]).toEqual([
      { op: 'add', path: '/tracks/0/start', value: {} },
      { op: 'add', path: '/tracks/0/start/y', value: 5.5 },
    ])
  })

  it('without cars is not looked at, which is said', () => {
    expect(worked(sent(garden(60), { cars: [] })).findings).toContainEqual(
      expect.objectContaining({ rule: 'not-checked', message: expect.stringContaining('outline') }),
    )
  })

  it.each<[string, object[], string[]]>([
    ['two corners', corners([0, 0], [1, 1]), ['/outline too-few']],
    ['sides that cross', corners([0, 0], [10, 10], [10, 0], [0, 10]), ['/outline contradictory']],
    ['many corners', corners([0, 0], [10, 0], [10, 10], [5, 2], [0, 10]), []],
  ])('%s', (_, outline, faults) => {
    const read = readPlan(sent(outline))
    expect(read.ok ? [] : read.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)).toEqual(faults)
  })
})
