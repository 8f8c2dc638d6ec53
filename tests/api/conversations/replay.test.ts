import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../../src/app.ts'
import type { ProjectStore } from '../../../src/projects/store.ts'
import { type Serving, serve } from '../../../src/serving.ts'
import { inThisThread } from '../../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../../servers/databases.ts'
import { planWith } from '../asking.ts'
import { CONVERSATIONS } from './conversations.ts'

let store: ProjectStore
let serving: Serving
let addresses: Record<string, string>

beforeAll(async () => {
  store = await temporaryStore()
  serving = await serve(createApp({ store, workers: inThisThread }), { host: '127.0.0.1', port: 0 })
  const { id } = await store.create({ name: 'Spur', notes: '', plan: planWith() })
  addresses = {
    'a cell': '/v1/cell/mid-ordinate?diameter=20ft&chord=500&refresh=7',
    'a cell of a whole track': '/v1/cell/sticks?track=S6ft_Ld18ft-a45_S1p2m',
    'a table as CSV': `/v1/projects/${id}/tables/cut-list.csv`,
    'a table as JSON': `/v1/projects/${id}/tables/elements.json`,
  }
})
afterAll(async () => {
  await serving.drain()
  await store.close()
})

describe.each(CONVERSATIONS)('$client ($source)', ({ requests }) => {
  test.each(['a cell', 'a cell of a whole track', 'a table as CSV', 'a table as JSON'])('gets %s', async (what) => {
    const address = `${serving.url}${addresses[what]}`
    const plain = await fetch(address)
    const content = await plain.text()
    expect(plain.status).toBe(200)
    for (const { method, headers, needs } of requests) {
      const answer = await fetch(address, { method, headers })
      const text = await answer.text()
      expect(answer.headers.has('dav')).toBe(false)
      switch (needs) {
        case 'the content':
          // A server may answer a range with everything (RFC 9110, section 14.2).
          expect([answer.status, text]).toEqual([200, content])
          expect(answer.headers.get('content-type')).toBe(plain.headers.get('content-type'))
          break
        case 'its headers':
          expect([answer.status, text]).toEqual([200, ''])
          expect(answer.headers.get('content-type')).toBe(plain.headers.get('content-type'))
          expect(answer.headers.get('etag')).toBe(plain.headers.get('etag'))
          break
        case 'the methods':
          expect(answer.status).toBe(204)
          expect(answer.headers.get('allow')).toBe('GET, HEAD, OPTIONS')
          break
        case 'no such method':
          expect(answer.status).toBe(405)
          expect(answer.headers.get('allow')).toBe('GET, HEAD, OPTIONS')
      }
    }
  })
})

test('a cell is kept for a while, has a strong tag, and is not sent again to a client that has it', async () => {
  const address = `${serving.url}${addresses['a cell']}`
  const first = await fetch(address)
  expect(first.headers.get('cache-control')).toBe('public, max-age=3600')
  const tag = first.headers.get('etag')!
  expect(tag).toMatch(/^"[\w-]+"$/)
  const again = await fetch(address.replace('refresh=7', 'refresh=8'), { headers: { 'If-None-Match': tag } })
  expect([again.status, await again.text(), again.headers.get('etag')]).toEqual([304, '', tag])
  const other = await fetch(address.replace('20ft', '21ft'), { headers: { 'If-None-Match': tag } })
  expect(other.status).toBe(200)
})
