import { expect, onTestFinished, test, vi } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { Log } from '../../src/log/log.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { serve } from '../../src/serving.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { recordedLog } from '../log/recorded.ts'
import { oddWorkers } from '../workers/pools.ts'
import { asking, planWith, problemIn } from './asking.ts'

const store = {
  list: async () => ({ items: [], next: null }),
  freeStock: async () => NOTHING,
} as unknown as ProjectStore

/** An app with worker threads, some of whose work goes wrong. */
function appWith(size: Parameters<typeof oddWorkers>[0], log?: Log) {
  const { workers, threads } = oddWorkers(size)
  return createApp({ store, workers, threads, ...(log && { log }) })
}

/** What is thorough is worked out in a thread. */
const estimateOf = (title: string) => ({ method: 'POST', json: planWith({ title, effort: 'thorough' }) })

test('what finds the queue full is answered with 503 and when to try again; the others are answered', async () => {
  const { ask } = asking(appWith({ threads: 1, queue: 1 }))
  const taken = [ask('/v1/estimates', estimateOf('spin')), ask('/v1/estimates', estimateOf('spin'))]
  await new Promise((resolve) => setTimeout(resolve, 50))
  const refused = await ask('/v1/estimates', estimateOf('one too many'))
  expect(refused.status).toBe(503)
  expect(refused.headers.get('retry-after')).toBe('10')
  expect(problemIn(refused)).toMatchObject({ type: '/docs/problems#too-busy', errors: [] })
  const form = new URLSearchParams({ 'rail.section': '250', 'rail.material': 'brass', effort: 'thorough' })
  form.set('tracks.0.name', 'main')
  form.set('tracks.0.elements.0.kind', 'tangent')
  form.set('tracks.0.elements.0.length', '6 ft')
  const page = await ask('/', {
    method: 'POST',
    headers: { 'Content-Type': 'application/x-www-form-urlencoded', Origin: 'http://localhost' },
    body: form.toString(),
  })
  expect([page.status, page.headers.get('retry-after')]).toEqual([503, '10'])
  expect(page.text).toContain('The server is busy')
  const inCell = await ask('/v1/cell/sticks?track=S9000m&stick=6ft&stickPrice=10&errors=cell')
  expect([inCell.status, inCell.text]).toEqual([200, expect.stringMatching(/^ERR too-busy track: /)])
  expect((await Promise.all(taken)).map(({ status }) => status)).toEqual([200, 200])
  expect((await ask('/v1/estimates', estimateOf('now there is room'))).status).toBe(200)
})

test.each([
  ['exhaust', 'too much memory'],
  ['spin-for-a-minute', 'more than a minute'],
  ['much-to-send', 'larger than 32 MiB'],
])('%s is refused with the reason; what waits is answered', async (title, reason) => {
  const { ask } = asking(
    appWith({ threads: 1, limits: { memoryMb: 100, ...(title === 'spin-for-a-minute' && { deadlineMs: 6_000 }) } }),
  )
  const [refused, next] = await Promise.all([
    ask('/v1/estimates', estimateOf(title)),
    ask('/v1/estimates', estimateOf('next')),
  ])
  expect(refused.status).toBe(422)
  expect(problemIn(refused)).toMatchObject({ type: '/docs/problems#too-much-work' })
  expect(problemIn(refused).detail).toContain(reason)
  expect(next.status).toBe(200)
})

test('a fault of the program in a thread gives a 500 that says nothing of it; the next is answered', async () => {
  const { log, from } = recordedLog()
  const { ask } = asking(appWith({ threads: 1, queue: 4 }, log))
  const [failed, next] = await Promise.all([
    ask('/v1/estimates', estimateOf('go-wrong')),
    ask('/v1/estimates', estimateOf('next')),
  ])
  expect(failed.status).toBe(500)
  expect(problemIn(failed)).toMatchObject({ type: '/docs/problems#internal-error' })
  expect(failed.text).not.toContain('secret')
  expect(from('warn')).toMatchObject([{ level: 'error', template: '/v1/estimates', status: 500 }])
  expect(next.status).toBe(200)
})

test('when the client goes away its work is given up, and the thread is free', async () => {
  const { log, from } = recordedLog()
  const serving = await serve(appWith({ threads: 1, queue: 0 }, log), { host: '127.0.0.1', port: 0 })
  onTestFinished(() => serving.drain())
  const post = (title: string, signal?: AbortSignal) =>
    fetch(`${serving.url}/v1/estimates`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(planWith({ title, effort: 'thorough' })),
      ...(signal && { signal }),
    })
  const gone = new AbortController()
  const abandoned = post('spin-for-a-minute', gone.signal)
  await new Promise((resolve) => setTimeout(resolve, 50))
  expect((await post('finds no room')).status).toBe(503)
  gone.abort()
  await expect(abandoned).rejects.toThrow()
  // A thread that was stopped in the middle of its work is replaced, which takes as long as it takes.
  await vi.waitFor(async () => expect((await post('finds room')).status).toBe(200), { timeout: 20_000, interval: 100 })
  expect(from('warn')).toEqual([])
})
