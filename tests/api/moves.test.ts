import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import { MOVE_ANSWER, type Moved } from '../../src/estimate/questions/move.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'
import { appWithoutStore, asking, example, planWith, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/moves', { method: 'POST', json })

async function movedBy(json: unknown): Promise<Moved> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(MOVE_ANSWER).parse(body)).toEqual(body)
  return body as Moved
}

async function estimateOf(json: unknown): Promise<Estimate> {
  const answer = await ask('/v1/estimates', { method: 'POST', json })
  if (answer.status !== 200) throw new Error(answer.text)
  return JSON.parse(answer.text) as Estimate
}

const { plan } = example('siding-to-move') as { plan: Record<string, unknown> }

describe('a track that is moved', () => {
  test('takes along what continues from it, and the findings are those of an estimate of the moved plan', async () => {
    const { tracks, findings, remedy } = await movedBy({ plan, track: 'main', x: 30, y: -120 })
    expect(tracks).toEqual(['main', 'branch'])
    const before = await estimateOf(plan)
    const after = await estimateOf(patched(plan, remedy as Patch))
    expect(before.findings.map(({ rule }) => rule)).toContain('obstacle')
    expect(findings.map(({ rule }) => rule)).not.toContain('obstacle')
    expect(findings.map(({ rule }) => rule)).toEqual(after.findings.map(({ rule }) => rule))
    // Every place of both tracks by the same.
    for (const [index, { elements }] of after.tracks.entries())
      for (const [n, { end }] of elements.entries()) {
        const old = before.tracks[index]!.elements[n]!.end
        expect([end.xMm - old.xMm, end.yMm - old.yMm]).toEqual([expect.closeTo(30, 6), expect.closeTo(-120, 6)])
      }
  })

  test('takes along where its end must come to, in the units it was written in', async () => {
    const held = {
      name: 'held',
      start: { x: '1 m', y: '2 ft' },
      end: { at: { x: '3 m', y: '2 ft' } },
      elements: [{ kind: 'tangent', length: 'fit' }],
    }
    const { remedy, tracks } = await movedBy({
      plan: planWith({ tracks: [held] }),
      track: 'held',
      x: '80 mm',
      y: '1 in',
    })
    expect(tracks).toEqual(['held'])
    expect(remedy).toEqual([
      { op: 'add', path: '/tracks/0/start/x', value: '1.08 m' },
      { op: 'add', path: '/tracks/0/start/y', value: '2 ft 1 in' },
      { op: 'add', path: '/tracks/0/end/at/x', value: '3.08 m' },
      { op: 'add', path: '/tracks/0/end/at/y', value: '2 ft 1 in' },
    ])
  })

  test('and moved back is where it was', async () => {
    const there = patched(plan, (await movedBy({ plan, track: 'main', x: 12.5, y: 7 })).remedy as Patch)
    const back = patched(there, (await movedBy({ plan: there, track: 'main', x: -12.5, y: -7 })).remedy as Patch)
    expect((await estimateOf(back)).tracks).toEqual((await estimateOf(plan)).tracks)
  })
})

describe('what is refused', () => {
  test('a track that starts from another, one that is not there, and faults around the plan', async () => {
    expect(problemIn(await post({ plan, track: 'branch', y: 1 })).errors).toMatchObject([
      { pointer: '/track', code: 'contradictory' },
    ])
    expect(problemIn(await post({ plan, track: 'Main', y: 1 })).errors).toMatchObject([
      { pointer: '/track', code: 'unknown-value' },
    ])
    expect(problemIn(await post({ plan, y: 'far' })).errors).toMatchObject([
      { pointer: '/track', code: 'missing' },
      { pointer: '/y', code: 'bad-length' },
    ])
  })
})
