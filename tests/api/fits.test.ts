import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import { FIT_OPTIONS, type FitOptions } from '../../src/estimate/questions/fit-options.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'
import { appWithoutStore, asking, example, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/fits', { method: 'POST', json })

async function optionsOf(json: unknown): Promise<FitOptions> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(FIT_OPTIONS).parse(body)).toEqual(body)
  return body as FitOptions
}

async function estimateOf(json: unknown): Promise<Estimate> {
  const answer = await ask('/v1/estimates', { method: 'POST', json })
  if (answer.status !== 200) throw new Error(answer.text)
  return JSON.parse(answer.text) as Estimate
}

const { plan } = example('connection-to-fit') as { plan: Record<string, unknown> }

describe('the options of a plan', () => {
  test('come in order of length, and are what an estimate says with them written in', async () => {
    const { currency, options } = await optionsOf({ plan })
    expect(currency).toBe('USD')
    expect(options.length).toBeGreaterThan(2)
    const lengths = options.map(({ lengthMm }) => lengthMm)
    expect(lengths).toEqual(lengths.toSorted((a, b) => a - b))
    for (const { cost, elements, findings, remedy, lengthMm } of options) {
      const { bill, tracks, findings: found } = await estimateOf(patched(plan, remedy as Patch))
      expect(bill.total).toBe(cost)
      expect(found.map(({ rule, track, element }) => [rule, track, element])).toEqual(
        findings.map(({ rule, track, element }) => [rule, track, element]),
      )
      expect(tracks.map(({ closure }) => closure!.gapMm < 1e-4)).toEqual([true, true])
      for (const { track, index, kind, lengthMm: mm } of elements) {
        const answered = tracks.find(({ name }) => name === track)!.elements[index]!
        expect(answered.kind).toBe(kind)
        expect(answered.lengthMm).toBeCloseTo(mm, 5)
      }
      expect(elements.reduce((sum, element) => sum + element.lengthMm, 0)).toBeCloseTo(lengthMm, 5)
    }
  })

  test('keep to the smallest radius of the plan where that is larger than their own', async () => {
    const from = { x: 0, y: 0, heading: 0 }
    const end = { at: { x: 9000, y: 2500, heading: 0 } }
    const elements = [TANGENT, { kind: 'connect', minimumRadius: 1500 }, TANGENT]
    const asked = planWith({ tracks: [{ name: 'link', start: from, end, elements }] })
    const radiiWith = async (minimumRadius: number) => {
      const { options } = await optionsOf({ plan: { ...asked, standards: { minimumRadius } } })
      expect(options.length).toBeGreaterThan(0)
      expect(options.flatMap(({ findings }) => findings.filter(({ rule }) => rule === 'minimum-radius'))).toEqual([])
      return options.flatMap(({ elements }) => elements.flatMap(({ radiusMm }) => radiusMm ?? []))
    }
    expect(Math.min(...(await radiiWith(1500)))).toBe(1500)
    expect(Math.min(...(await radiiWith(2000)))).toBe(2000)
  })

  test('the estimate of the plan takes the first without a finding above a note', async () => {
    const { options } = await optionsOf({ plan })
    const clean = options.find(({ findings }) => findings.every(({ severity }) => severity === 'note'))!
    const { tracks, bill } = await estimateOf(plan)
    expect(bill.total).toBe(clean.cost)
    const taken = clean.elements.map(({ track, index }) => tracks.find(({ name }) => name === track)!.elements[index])
    expect(taken).toEqual(clean.elements.map(({ track: _, ...element }) => element))
  })

  test('lengths and angles alone have one', async () => {
    const tracks = (plan.tracks as unknown[]).slice(1)
    const { options } = await optionsOf({ plan: { ...plan, tracks } })
    expect(options).toHaveLength(1)
    // By hand: the other side of the oval.
    expect(options[0]!.remedy).toEqual([
      { op: 'replace', path: '/tracks/0/elements/2/length', value: 2438.4 },
      { op: 'replace', path: '/tracks/0/elements/3/angle', value: 180 },
    ])
  })
})

describe('turnouts at the ends of a connection', () => {
  const six = { id: 'six', hand: 'left', number: 6, form: 'straight-frog', onHand: 2 }
  const main = { name: 'main', elements: [{ kind: 'tangent', length: 8000 }] }
  const siding = {
    name: 'siding',
    start: { x: 1000, y: 0 },
    end: { at: { x: 7000, y: 2500, heading: 30 } },
    elements: [{ kind: 'connect', minimumRadius: 1500 }],
  }
  const sent = planWith({ turnoutTypes: [six], tracks: [main, siding] })

  test('are put in by the patch of each way', async () => {
    const { options } = await optionsOf({ plan: sent, turnouts: true })
    expect(options.length).toBeGreaterThan(0)
    for (const { remedy, turnouts } of options) {
      expect(turnouts).toEqual([{ name: 'T1', type: 'six', track: 'main', element: 0, atMm: expect.any(Number) }])
      const { tracks } = await estimateOf(patched(sent, remedy as Patch))
      expect(tracks[0]!.elements.map(({ kind }) => kind)).toContain('turnout')
      expect(tracks[1]!.closure!.gapMm).toBeLessThan(1e-4)
    }
    expect((await optionsOf({ plan: sent })).options[0]!.turnouts).toEqual([])
  })

  test('are refused where no end lies on a straight', async () => {
    const away = { ...siding, start: { x: 1000, y: 900 } }
    const tracks = [main, away]
    expect(problemIn(await post({ plan: { ...(sent as object), tracks }, turnouts: true })).errors).toMatchObject([
      { pointer: '/plan/tracks/1/elements/0', code: 'no-fit' },
    ])
  })
})

describe('what is refused', () => {
  test('a break beyond the end of a track as it was fitted', async () => {
    const [main, loop] = plan.tracks as [Record<string, unknown>, unknown]
    const tracks = [{ ...main, breaks: [{ at: 17_100, kind: 'insulated' }] }, loop]
    expect(problemIn(await post({ plan: { ...plan, tracks } })).errors).toMatchObject([
      { pointer: '/plan/tracks/0/breaks/0/at' },
    ])
  })

  test('a plan that leaves nothing open', async () => {
    const { errors } = problemIn(await post({ plan: planWith({ tracks: [trackOf(TANGENT)] }) }))
    expect(errors).toMatchObject([{ pointer: '/plan/tracks', code: 'cannot-fit' }])
  })

  test('unknown fields beside the plan, and faults of the plan, all at once', async () => {
    const { errors } = problemIn(
      await post({ plan: planWith({ tracks: [trackOf({ ...TANGENT, length: 'fit' })] }), keepclear: true }),
    )
    expect(errors).toMatchObject([
      { pointer: '/keepclear', code: 'unknown-field' },
      { pointer: '/plan/tracks/0/elements/0/length', code: 'cannot-fit' },
    ])
  })
})
