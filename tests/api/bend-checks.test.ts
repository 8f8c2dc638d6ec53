import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { BendCheck } from '../../src/bending/bend-check/types.ts'
import { BEND_CHECK_ANSWER } from '../../src/bending/bend-check/types.ts'
import { appWithoutStore, asking, example, placesIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/bend-checks', { method: 'POST', json })

async function checkOf(json: unknown): Promise<BendCheck> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(BEND_CHECK_ANSWER).parse(body)).toEqual(body)
  return body as BendCheck
}

describe('at the bench', () => {
  test('each reading is held against the exact ordinate of the radius', async () => {
    const { stations, bestFitRadiusMm } = await checkOf(example('check-at-the-bench'))
    // closed form: M = R − √(R² − (C/2)²), R = C²/(8M) + M/2
    const target = 2400 - Math.sqrt(2400 ** 2 - 250 ** 2)
    expect(stations.map(({ verdict }) => verdict)).toEqual(['good', 'good', 'ease', 'good', 'bend-more'])
    for (const { ordinateMm, targetOrdinateMm, deviationMm, radiusMm, throwMm } of stations) {
      expect(targetOrdinateMm).toBeCloseTo(target, 8)
      expect(deviationMm).toBeCloseTo(ordinateMm! - target, 8)
      expect(radiusMm).toBeCloseTo(500 ** 2 / (8 * ordinateMm!) + ordinateMm! / 2, 8)
      expect(throwMm).toBeNull()
    }
    expect(stations.map(({ atMm }) => atMm)).toEqual([0, 250, 500, 750, 1000])
    expect(Math.abs(bestFitRadiusMm! - 2400)).toBeLessThan(100)
  })
})

describe('a laid curve', () => {
  test('the classical table, lined to the ordinates proposed (derived example, by simulated geometry)', async () => {
    const { stations } = await checkOf(example('check-laid-curve'))
    expect(stations.map(({ throwMm }) => throwMm! + 0)).toEqual([0, 0, -2, -6, -8, -8, -10, -8, -14, -14, -8, -4, 0, 0])
  })

  test('without a proposal the program makes one that moves neither end', async () => {
    const { proposed: _, ...readings } = example('check-laid-curve') as { proposed: unknown }
    const { stations, proposal } = await checkOf(readings)
    expect(proposal!.bodies.length).toBeGreaterThan(0)
    expect(stations[0]!.throwMm).toBeCloseTo(0, 6)
    expect(stations.at(-1)!.throwMm).toBeCloseTo(0, 6)
  })

  test('units as everywhere, and a reading that is missing', async () => {
    const { stations } = await checkOf({ chord: '20 in', diameter: '16 ft', readings: ['1/2 in', null, 0.4] })
    expect(stations.map(({ ordinateMm }) => ordinateMm)).toEqual([12.7, null, 0.4])
    expect(stations[1]!.verdict).toBeNull()
  })
})

test('faults come all at once, of fields and between them, each with its place', async () => {
  const body = { chord: 500, readings: [1, 'x', 300], radius: 2000, diameter: 4000, fixed: [7, 0, 0], toleranse: 3 }
  const answer = await post(body)
  expect(answer.status).toBe(422)
  expect(placesIn(answer).toSorted()).toEqual([
    '/fixed/0',
    '/fixed/2',
    '/radius',
    '/readings/1',
    '/readings/2',
    '/toleranse',
  ])
  expect(placesIn(await post({ chord: 500, radius: 200, readings: [1] }))).toEqual(['/radius'])
  expect(placesIn(await post({ chord: 500, diameter: 400, readings: [1] }))).toEqual(['/diameter'])
  const unread = { chord: 500, readings: ['x', null], proposed: [1, 'y', 3], fixed: ['z'] }
  expect(placesIn(await post(unread)).toSorted()).toEqual(['/fixed/0', '/proposed', '/proposed/1', '/readings/0'])
  expect(placesIn(await post({ chord: 'x', readings: [900] }))).toEqual(['/chord'])
})
