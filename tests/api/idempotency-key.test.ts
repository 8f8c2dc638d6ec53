import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { Project, ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { asking, planWith, problemIn } from './asking.ts'

let store: ProjectStore
let client: ReturnType<typeof asking>

beforeAll(async () => {
  store = await temporaryStore()
  client = asking(createApp({ store, workers: inThisThread }))
})
afterAll(() => store.close())

const json = { name: 'Pond line', plan: planWith() }
const create = (key: string, body: unknown = json) =>
  client.ask('/v1/projects', { method: 'POST', headers: { 'Idempotency-Key': key }, json: body })

describe('a request with an Idempotency-Key', () => {
  test('gets the same answer again, with its headers, also once the project has changed', async () => {
    const first = await create('"pond"')
    expect(first.status).toBe(201)
    const { id } = JSON.parse(first.text) as Project
    const changed = await client.ask(`/v1/projects/${id}`, {
      method: 'PUT',
      headers: { 'If-Match': '"1"' },
      json: { ...json, name: 'Lake line' },
    })
    expect(changed.status).toBe(200)
    const again = await create('"pond"')
    expect(again).toMatchObject({ status: 201, text: first.text })
    for (const header of ['location', 'etag']) expect(again.headers.get(header)).toBe(first.headers.get(header))
  })

  test('is the same whether its key stands in quotes, and whatever white space its body has', async () => {
    const first = await create('a-b_1')
    const again = await client.ask('/v1/projects', {
      method: 'POST',
      headers: { 'Idempotency-Key': '"a-b_1"', 'Content-Type': 'application/json' },
      body: JSON.stringify(json, null, 2),
    })
    expect(again.text).toBe(first.text)
  })

  test('with another body is refused', async () => {
    await create('"two"')
    const { status, errors } = problemIn(await create('"two"', { ...json, notes: 'more' }))
    expect(status).toBe(422)
    expect(errors).toMatchObject([{ parameter: 'Idempotency-Key', code: 'key-reused' }])
  })

  test('that was refused can be corrected under the same key', async () => {
    expect((await create('"corrected"', { name: 'x' })).status).toBe(422)
    expect((await create('"corrected"')).status).toBe(201)
  })

  test('that is sent twice at once is answered once, and the other is told when to try again', async () => {
    const answers = await Promise.all([create('"twice"'), create('"twice"')])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const refused = answers.find(({ status }) => status === 409)!
    expect(problemIn(refused).errors).toMatchObject([{ parameter: 'Idempotency-Key', code: 'in-progress' }])
    expect(refused.headers.get('retry-after')).toBe('1')
  })

  test.each(['""', '"', 'two words', '"é"', `"${'x'.repeat(256)}"`, '"a";q=1', '"a", "b"'])(
    'refuses the key %s',
    async (key) => {
      const { status, errors } = problemIn(await create(key))
      expect(status).toBe(400)
      expect(errors).toMatchObject([{ parameter: 'Idempotency-Key', code: 'bad-key' }])
    },
  )
})
