import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import type { SettingOut } from '../../src/estimate/questions/setting-out.ts'
import { SETTING_OUT_ANSWER } from '../../src/estimate/questions/setting-out.ts'
import { ARC, appWithoutStore, asking, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/setting-outs', { method: 'POST', json })

async function pegsOf(json: unknown): Promise<SettingOut> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(SETTING_OUT_ANSWER).parse(body)).toEqual(body)
  return body as SettingOut
}

const YARD = 3 * 304.8

describe('the curves of a plan', () => {
  test('are pegged at both ends and at the round stations of the track between them', async () => {
    const { intervalMm, tracks, assumptions } = await pegsOf(example('curves-to-peg-out'))
    expect(intervalMm).toBeCloseTo(YARD, 9)
    expect(assumptions).toEqual([])
    const [{ name, curves }] = tracks as [SettingOut['tracks'][number]]
    expect(name).toBe('pond side')
    expect(curves.map(({ element, kind, turn, label }) => [element, kind, turn, label])).toEqual([
      [1, 'easement', 'right', null],
      [2, 'arc', 'right', 'round the pond'],
      [3, 'easement', 'right', null],
    ])
    // by hand: 8 ft and 4 ft, so the arc runs from 12 ft to 12 + 12·75π/180 = 27.708 ft
    const yards = curves[1]!.pegs.map(({ stationMm }) => stationMm / YARD)
    expect(yards).toHaveLength(7)
    for (const [index, yard] of [4, 5, 6, 7, 8, 9, 9.23599].entries()) expect(yards[index]).toBeCloseTo(yard, 5)
    expect(curves[0]!.pegs.map(({ stationMm }) => Math.round(stationMm / 304.8))).toEqual([8, 9, 12])
  })

  test('stand where the estimate of the plan has their elements', async () => {
    const body = example('curves-to-peg-out') as { plan: unknown }
    const { curves } = (await pegsOf(body)).tracks[0]!
    const estimate = JSON.parse((await ask('/v1/estimates', { method: 'POST', json: body.plan })).text) as Estimate
    for (const { element, fromMm, toMm, pegs } of curves) {
      const answered = estimate.tracks[0]!.elements[element]!
      expect([fromMm, toMm]).toEqual([answered.fromMm, answered.toMm])
      const { xMm, yMm, headingDeg } = pegs.at(-1)!
      expect({ xMm, yMm, headingDeg }).toEqual(answered.end)
      expect({ xMm: pegs[0]!.xMm, yMm: pegs[0]!.yMm, headingDeg: pegs[0]!.headingDeg }).toEqual(answered.start)
    }
  })

  test('without an interval are pegged every 500 mm, which is said with what else is assumed', async () => {
    const { intervalMm, tracks, assumptions } = await pegsOf({ plan: planWith({ tracks: [trackOf(TANGENT, ARC)] }) })
    expect(intervalMm).toBe(500)
    expect(tracks[0]!.curves[0]!.pegs.map(({ stationMm }) => Math.round(stationMm))).toEqual([
      1829, 2000, 2500, 3000, 3500, 3983,
    ])
    expect(assumptions.map(({ field }) => field)).toEqual(['/plan/tracks/0/start', '/interval'])
  })
})

describe('what cannot be set out', () => {
  test('is refused with every fault, of the plan and around it, each with its place in the request', async () => {
    const plan = planWith({ tracks: [trackOf({ ...TANGENT, length: -1 }, { ...ARC, diameter: 40 })], chrods: [] })
    expect(placesIn(await post({ plan, interval: 'a yard', intervall: 3 })).toSorted()).toEqual([
      '/interval',
      '/intervall',
      '/plan/chrods',
      '/plan/tracks/0/elements/0/length',
      '/plan/tracks/0/elements/1/diameter',
    ])
    expect(placesIn(await post({}))).toEqual(['/plan'])
    expect(placesIn(await post({ plan: null }))).toEqual(['/plan'])
    expect(placesIn(await post([]))).toEqual([''])
  })

  test('is more pegs than an answer holds; the interval that is told then does', async () => {
    const helix = { kind: 'arc', radius: '10 m', angle: 7200, turn: 'left' }
    const body = { plan: planWith({ tracks: [trackOf(helix, TANGENT, { ...helix, turn: 'right' })] }), interval: 7 }
    const answer = await post(body)
    expect(answer.status).toBe(422)
    const [fault] = problemIn(answer).errors
    expect([placesIn(answer), fault!.code]).toEqual([['/interval'], 'too-many'])
    const interval = /[\d.]+ mm/.exec(fault!.hint!)![0]
    const { tracks } = await pegsOf({ ...body, interval })
    const pegs = tracks.flatMap(({ curves }) => curves.flatMap((curve) => curve.pegs)).length
    expect(pegs).toBeLessThanOrEqual(25_000)
    expect(pegs).toBeGreaterThan(12_500)
  })
})
