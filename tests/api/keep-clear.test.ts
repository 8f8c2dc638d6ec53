import { describe, expect, test } from 'vitest'
import { preparePlan } from '../../src/estimate/plan.ts'
import type { FitOptions } from '../../src/estimate/questions/fit-options.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { besideOfPlan } from '../../src/estimate/track/beside-of-plan.ts'
import { layTrack } from '../../src/estimate/track/laid-track.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'
import { appWithoutStore, asking, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/fits', { method: 'POST', json })

const COACH = { name: 'coach', length: 500, truckCentres: 340, width: 120 }
const TREE = { name: 'tree', circle: { x: 4000, y: 250, radius: 200 } }
const plan = (more: object = {}) => ({
  rail: { section: '250', material: 'brass' },
  cars: [COACH],
  obstacles: [TREE],
  tracks: [
    {
      name: 'main',
      end: { at: { x: 8000, y: 500, heading: 0 } },
      elements: [
        { kind: 'tangent', length: 500 },
        { kind: 'connect', minimumRadius: 1500 },
        { kind: 'tangent', length: 500 },
      ],
    },
  ],
  ...more,
})

async function optionsOf(json: unknown): Promise<FitOptions['options']> {
  const answer = await post(json)
  expect(answer.status).toBe(200)
  return (JSON.parse(answer.text) as FitOptions).options
}

/** How deep cars so much wider reach into the tree, on the plan with a way written in. */
function depthWith(sent: object, patch: unknown, margin: number): number {
  const read = readPlan(patched(sent, patch as Patch))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const wide = { ...read.plan, cars: [{ ...COACH, width: COACH.width + 2 * margin }] }
  const { plan: prepared } = preparePlan(wide)
  const { touched } = besideOfPlan(
    prepared.tracks.map((track) => layTrack(track, prepared)),
    prepared,
  ).obstacles
  return Math.max(0, ...touched.map(({ depthMm }) => depthMm))
}

describe('keepClear', () => {
  test('without it every way is answered, with what it runs into; with it only those that touch nothing', async () => {
    const all = await optionsOf({ plan: plan() })
    const touching = all.filter(({ findings }) => findings.some(({ rule }) => rule === 'obstacle'))
    expect(touching.length).toBeGreaterThan(0)
    const clear = await optionsOf({ plan: plan(), keepClear: true })
    expect(clear.length).toBeGreaterThan(0)
    for (const { findings, remedy } of clear) {
      expect(findings.filter(({ rule }) => rule === 'obstacle')).toEqual([])
      expect(depthWith(plan(), remedy, 0)).toBe(0)
    }
    // Straight through is shorter than round the tree.
    expect(clear[0]!.lengthMm).toBeGreaterThan(touching[0]!.lengthMm)
  })

  test.each([50, 150])('a margin of %d mm is left beside the cars', async (margin) => {
    const clear = await optionsOf({ plan: plan(), keepClear: true, margin })
    expect(clear.length).toBeGreaterThan(0)
    for (const { remedy } of clear) expect(depthWith(plan(), remedy, margin)).toBe(0)
  })

  test('mirrored, the same lengths are answered', async () => {
    const mirrored = plan({
      obstacles: [{ ...TREE, circle: { ...TREE.circle, y: -250 } }],
      tracks: plan().tracks.map((track) => ({ ...track, end: { at: { x: 8000, y: -500, heading: 0 } } })),
    })
    const [one, other] = [
      await optionsOf({ plan: plan(), keepClear: true }),
      await optionsOf({ plan: mirrored, keepClear: true }),
    ]
    expect(other[0]!.lengthMm).toBeCloseTo(one[0]!.lengthMm, 3)
  })

  test('where no way is clear, the refusal says what is nearest, and by how much', async () => {
    // A wall right across, 200 mm before the end.
    const wall = [
      { x: 7000, y: -9000 },
      { x: 7100, y: -9000 },
      { x: 7100, y: 9000 },
      { x: 7000, y: 9000 },
    ]
    const answer = await post({ plan: plan({ obstacles: [{ name: 'wall', polygon: wall }] }), keepClear: true })
    expect(answer.status).toBe(422)
    const [fault] = problemIn(answer).errors!
    expect(fault).toMatchObject({ pointer: '/plan/tracks/0/elements/1', code: 'no-fit' })
    expect(fault!.detail).toMatch(/^none of the ways keeps clear: the nearest lacks \d+(\.\d)? mm beside wall$/)
  })

  test('where two connections both need another way, they are made one after another', async () => {
    // Each turns back the shortest way through a track that stays, unless it goes round the other side.
    const around = (x: number) => [
      {
        name: `stays at ${x}`,
        start: { x: x + 1560, y: 1400, heading: 90 },
        elements: [{ kind: 'tangent', length: 400 }],
      },
      {
        name: `back at ${x}`,
        start: { x, y: 0 },
        end: { at: { x, y: 3200, heading: 180 } },
        elements: [{ kind: 'connect', minimumRadius: 1500, minimumTangent: 0 }],
      },
    ]
    const both = plan({ obstacles: [], tracks: [...around(0), ...around(20_000)] })
    const [clear, ...others] = await optionsOf({ plan: both, keepClear: true })
    expect(others).toEqual([])
    expect(clear!.findings.filter(({ rule }) => ['track-spacing', 'self-crossing'].includes(rule))).toEqual([])
    const [near, far] = ['back at 0', 'back at 20000'].map((name) =>
      clear!.elements.filter(({ track }) => track === name).reduce((sum, { lengthMm }) => sum + lengthMm, 0),
    )
    expect(near).toBeCloseTo(far!, 6)
    // As one alone is answered.
    const one = await optionsOf({ plan: plan({ obstacles: [], tracks: around(0) }), keepClear: true })
    expect(near).toBeCloseTo(one[0]!.lengthMm, 6)
  })

  test('no way round several obstacles is answered twice', async () => {
    const trees = [0, 1, 2, 3].map((at) => {
      return { name: `tree ${at}`, circle: { x: 3000 + 1200 * at, y: (-1) ** at * 150, radius: 250 } }
    })
    const [main] = plan().tracks
    const among = plan({ obstacles: trees, tracks: [{ ...main, end: { at: { x: 10_000, y: 0, heading: 0 } } }] })
    const options = await optionsOf({ plan: among, keepClear: true, margin: 20 })
    const ways = options.map(({ elements }) =>
      elements.map(({ kind, turn, lengthMm }) => `${kind} ${turn} ${lengthMm.toFixed(3)}`).join(', '),
    )
    expect(ways.length).toBeGreaterThan(1)
    expect(new Set(ways).size).toBe(ways.length)
  })

  test('without cars it is refused', async () => {
    const answer = await post({ plan: plan({ cars: [] }), keepClear: true })
    expect(problemIn(answer).errors).toMatchObject([{ pointer: '/plan/cars', code: 'missing' }])
  })
})
