import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { overhangOn } from '../../src/room/overhang.ts'
import { asSent, spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

const COACH = { name: 'coach', length: 700, truckCentres: 500, width: 130 }
const WIDE = { name: 'wide', length: 400, truckCentres: 250, width: 160 }
const POST = { name: 'post', circle: { x: 1000, y: 60, radius: 2.5 } }
const sent = (more: object = {}) => ({
  ...asSent(),
  cars: [COACH],
  obstacles: [POST],
  standards: { minimumTangentBetweenReverseCurves: 100, minimumRadius: 600 },
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 3000 }] }],
  ...more,
})

const found = (plan: object) => worked(plan).findings.filter(({ rule }) => rule === 'obstacle')

describe('obstacles', () => {
  it('on a straight are touched by half the width of the car, and at the limit are not', () => {
    expect(found(sent())).toMatchObject([
      {
        severity: 'stop',
        track: 'main',
        element: 0,
        measured: expect.closeTo(65 - 57.5, 3),
        message:
          'On main, coach runs into post: 7.5 mm deep at 1000 mm from its start, on the left, and it is in the way from 997 mm to 1003 mm.',
        cure: 'Move the track there 7.5 mm to the right, or take as much off post between 997 mm and 1003 mm.',
      },
    ])
    expect(found(sent({ obstacles: [{ ...POST, circle: { x: 1000, y: 67.5, radius: 2.5 } }] }))).toEqual([])
  })

  it('names the car that reaches deepest, and the others', () => {
    expect(found(sent({ cars: [COACH, WIDE] }))).toMatchObject([
      {
        measured: expect.closeTo(22.5, 3),
        message: expect.stringContaining('wide runs into post; so does coach: 22.5 mm'),
      },
    ])
  })

  it('on an arc are touched by the middle of the car inside and its corners outside: closed forms', () => {
    const { insideReachMm, outsideReachMm } = overhangOn(2000, { lengthMm: 700, truckCentresMm: 500, widthMm: 130 })
    const tracks = [
      { name: 'round', closed: true, elements: [{ kind: 'arc', radius: 2000, angle: 360, turn: 'left' }] },
    ]
    // The centre of the circle is at (0, 2000); both posts stand 100 mm from the start of the track, which is closed.
    const at = (mm: number) => ({ x: mm * Math.sin(0.05), y: 2000 - mm * Math.cos(0.05), radius: 2.5 })
    const posts = [
      { name: 'inside', circle: at(2000 - insideReachMm) },
      { name: 'outside', circle: at(2000 + outsideReachMm) },
    ]
    const both = found(sent({ tracks, obstacles: posts }))
    expect(both.map(({ measured }) => measured)).toEqual([expect.closeTo(2.5, 3), expect.closeTo(2.5, 3)])
    expect(both.map(({ message }) => message)).toEqual([
      expect.stringContaining('into inside: 2.5 mm deep at 100 mm from its start, on the left'),
      expect.stringContaining('into outside: 2.5 mm deep at 100 mm from its start, on the right'),
    ])
  })

  it('over the start of a closed track is one', () => {
    const tracks = [
      { name: 'round', closed: true, elements: [{ kind: 'arc', radius: 2000, angle: 360, turn: 'left' }] },
    ]
    const wall = {
      name: 'wall',
      polygon: [
        [-100, -60],
        [100, -60],
        [100, -200],
        [-100, -200],
      ].map(([x, y]) => ({ x, y })),
    }
    expect(found(sent({ tracks, obstacles: [wall] }))).toMatchObject([
      { message: expect.stringMatching(/from 124\d\d mm to 9\d mm|from 124\d\d mm to 10\d mm/) },
    ])
  })

  it('no higher than the rails are not touched, and are where the track goes down', () => {
    const low = (height: number) => sent({ obstacles: [{ ...POST, height }] })
    expect(found(low(0))).toEqual([])
    expect(found(low(1))).toHaveLength(1)
    const falling = [
      { at: 0, elevation: 100 },
      { at: 3000, elevation: 70 },
    ]
    const tracks = [{ name: 'main', gradeLine: falling, elements: [{ kind: 'tangent', length: 3000 }] }]
    const wall = {
      name: 'wall',
      height: 85,
      polygon: [
        [100, 60],
        [2900, 60],
        [2900, 90],
      ].map(([x, y]) => ({ x, y })),
    }
    expect(found(sent({ tracks, obstacles: [wall] }))).toMatchObject([
      { message: expect.stringContaining('in the way from 1500 mm to 2900 mm') },
    ])
  })

  it('across the track are told so', () => {
    expect(found(sent({ obstacles: [{ name: 'rock', circle: { x: 1500, y: 20, radius: 200 } }] }))).toMatchObject([
      {
        message: expect.stringContaining('rock stands on main, from 13'),
        cure: expect.stringContaining('Lead the track round'),
      },
    ])
  })

  it('beside a turnout are found once, on the track on which the car is', () => {
    const plan = { ...spurPlan(), cars: [COACH], standards: { minimumRadius: 600 } }
    // On the right of the straight, opposite the curve: only cars that turn off swing their ends over there.
    const { findings } = worked({ ...plan, obstacles: [{ name: 'post', circle: { x: 1100, y: -68.5, radius: 2.5 } }] })
    const own = findings.filter(({ rule }) => rule === 'obstacle')
    expect(own).toHaveLength(1)
    expect(own[0]).toMatchObject({ track: 'main' })
    expect(
      worked({
        ...plan,
        tracks: plan.tracks.slice(0, 1),
        obstacles: [{ name: 'post', circle: { x: 1100, y: -68.5, radius: 2.5 } }],
      }).findings.some(({ rule }) => rule === 'obstacle'),
    ).toBe(false)
  })

  it('without cars are not looked at, which is said', () => {
    const { findings } = worked(sent({ cars: [] }))
    expect(findings).toContainEqual(
      expect.objectContaining({ rule: 'not-checked', message: expect.stringContaining('obstacles') }),
    )
  })

  const corners = (...list: [number, number][]) => list.map(([x, y]) => ({ x, y }))
  it.each<[string, object[], string[]]>([
    ['two of one name', [POST, POST], ['/obstacles/1/name duplicate-name']],
    ['two corners', [{ name: 'a', polygon: corners([0, 0], [1, 1]) }], ['/obstacles/0/polygon too-few']],
    ['neither', [{ name: 'a' }], ['/obstacles/0/polygon missing']],
    ['both', [{ ...POST, polygon: corners([0, 0], [1, 1], [2, 0]) }], ['/obstacles/0/polygon contradictory']],
    [
      'sides that cross',
      [{ name: 'a', polygon: corners([0, 0], [10, 10], [10, 0], [0, 10]) }],
      ['/obstacles/0/polygon contradictory'],
    ],
    [
      'a corner twice',
      [{ name: 'a', polygon: corners([0, 0], [0, 0], [10, 0], [0, 10]) }],
      ['/obstacles/0/polygon contradictory'],
    ],
    [
      'a side back over itself',
      [{ name: 'a', polygon: corners([0, 0], [10, 0], [5, 0]) }],
      ['/obstacles/0/polygon contradictory'],
    ],
    ['a shape of many corners', [{ name: 'a', polygon: corners([0, 0], [10, 0], [10, 10], [5, 2], [0, 10]) }], []],
    ['no radius', [{ name: 'a', circle: { x: 0, y: 0, radius: 0 } }], ['/obstacles/0/circle/radius out-of-range']],
  ])('%s', (_, obstacles, faults) => {
    const read = readPlan(sent({ obstacles }))
    expect(read.ok ? [] : read.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)).toEqual(faults)
  })
})
