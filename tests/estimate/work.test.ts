import { describe, expect, it } from 'vitest'
import { workOf, workOfCutList } from '../../src/estimate/work.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { arc, planOf, straight } from './plans.ts'

const plan = (more: object = {}, track: object = {}, elements = [straight(9000), arc(2000, 90)]): PlanInput =>
  planOf(elements, track, more as Partial<PlanInput>)

const sticks = (...lengthsMm: number[]) => ({ supplies: { sticks: lengthsMm.map((length) => ({ length })) } })
const breaks = (count: number) => Array.from({ length: count }, (_, n) => ({ at: 50 * (n + 1), kind: 'turnout' }))

const CARS = [{ name: 'coach', length: 700, truckCentres: 500, width: 130 }]

describe('the estimated work of a plan', () => {
  it.each([
    ['length', plan({}, {}, [straight(900_000)])],
    [
      'elements',
      plan(
        {},
        {},
        [...Array(50)].map(() => straight(180)),
      ),
    ],
    ['curves of other sizes', plan({}, {}, [straight(9000), arc(2000, 45), arc(3000, 30)])],
    ['chords', plan({ chords: [100, 200, 300, 400] })],
    ['shorter sticks', plan(sticks(700))],
    ['more lengths of sticks', plan(sticks(1524, 1828.8))],
    ['breaks', plan({}, { breaks: breaks(20) })],
    ['joints apart', plan({ joints: { stagger: 300 } })],
    ['joints between ties', plan({ joints: { betweenTies: true } })],
    ['stretches without joints', plan({}, { keepOut: [{ from: 100, to: 500 }] })],
    ['trimmed ends', plan({ bender: { span: 100, ends: 'trim' } })],
    ['ready-made pieces', plan({ supplies: { panels: [{ length: 600 }] } })],
    ['a slope', plan({}, { gradeLine: [0, 9000].map((mm) => ({ at: mm, elevation: mm })) })],
    ['an outline', plan({ cars: CARS, outline: [0, 9000, 18_000].map((x) => ({ x, y: x % 7000 })) })],
    ['obstacles', plan({ cars: CARS, obstacles: [{ name: 'a', circle: { x: 0, y: 900, radius: 5 } }] })],
    [
      'trains with weight',
      plan({
        cars: [{ ...CARS[0], massKg: 2, engine: { drive: 'battery' } }],
        trains: [{ name: 'a', engine: 'coach' }],
      }),
    ],
    ['an effort', plan({ effort: 'thorough' })],
  ])('grows with %s', (_, more) => {
    expect(workOf(more)).toBeGreaterThan(workOf(plan()))
  })

  it('is little for a garden, and much for what takes seconds', () => {
    // Measured: some milliseconds, and over half a second.
    expect(workOf(plan())).toBeLessThan(50)
    expect(workOf(plan({ joints: { stagger: 500 } }, {}, [straight(3e6)]))).toBeGreaterThan(400)
    expect(workOf(plan({ joints: { stagger: 300 } }, { breaks: breaks(999) }, [straight(2e6)]))).toBeGreaterThan(400)
  })
})

describe('the estimated work of runs to cut', () => {
  const list = (runsMm: number[], sticksMm: number[], effort: 'quick' | 'thorough' = 'quick') =>
    workOfCutList({
      runs: runsMm.map((lengthMm) => ({ lengthMm })),
      sticks: sticksMm.map((lengthMm) => ({ lengthMm, priceCents: 1000, onHand: 0 })),
      kerfMm: 1,
      minimumPieceMm: 100,
      joinerCents: 50,
      effort,
    })

  it.each([
    ['runs', list([9000, 8000, 7000], [1800])],
    ['length', list([9e6, 8000], [1800])],
    ['shorter sticks', list([9000, 8000], [600])],
    ['lengths of sticks', list([9000, 8000], [1800, 1524])],
    ['effort', list([9000, 8000], [1800], 'thorough')],
  ])('grows with %s', (_, more) => {
    expect(more).toBeGreaterThan(list([9000, 8000], [1800]))
  })

  it('is much for what was measured to take over a tenth of a second', () => {
    const lengths = Array.from({ length: 20 }, (_, n) => 600 + n * 97.3)
    expect(list([9000, 8000], [1800])).toBeLessThan(20)
    expect(
      list(
        Array.from({ length: 8 }, () => 9e5),
        lengths,
      ),
    ).toBeGreaterThan(100)
    expect(
      list(
        Array.from({ length: 8 }, (_, n) => 700 + n * 777.7),
        lengths,
      ),
    ).toBeGreaterThan(100)
  })
})
