import { expect, onTestFinished, test, vi } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { Log } from '../../src/log/log.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { serve } from '../../src/serving.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import type { Workers } from '../../src/workers/workers.ts'
import { recordedLog } from '../log/recorded.ts'
import { estimatingPool } from '../workers/pools.ts'
import { asking, planWith, problemIn } from './asking.ts'

const store = {
  list: async () => ({ items: [], next: null }),
  freeStock: async () => NOTHING,
} as unknown as ProjectStore

/** An app whose estimates are all made in worker threads, some of which go wrong. */
function appWith(size: { threads: number; queue: number }, log?: Log) {
  const pool = estimatingPool(size)
  const workers: Workers = { ...inThisThread, estimate: (stocked, client) => pool.run('estimate', stocked, client) }
  return createApp({ store, workers, ...(log && { log }) })
}

const estimateOf = (title: string) => ({ method: 'POST', json: planWith({ title }) })

test('what finds the queue full is answered with 503 and when to try again; the others are answered', async () => {
  const { ask } = asking(appWith({ threads: 1, queue: 1 }))
  const taken = [ask('/v1/estimates', estimateOf('spin')), ask('/v1/estimates', estimateOf('spin'))]
  await new Promise((resolve) => setTimeout(resolve, 50))
  const refused = await ask('/v1/estimates', estimateOf('one too many'))
  expect(refused.status).toBe(503)
  expect(refused.headers.get('retry-after')).toBe('10')
  expect(problemIn(refused)).toMatchObject({ type: '/docs/problems#too-busy', errors: [] })
  const page = await ask('/demo')
  expect([page.status, page.headers.get('retry-after')]).toEqual([503, '10'])
  expect(page.text).toContain('The server is busy')
  expect((await Promise.all(taken)).map(({ status }) => status)).toEqual([200, 200])
  expect((await ask('/v1/estimates', estimateOf('now there is room'))).status).toBe(200)
})

test.each(['exhaust', 'fail'])(
  'a thread that ends with %s gives a 500 that tells nothing; the next is answered',
  async (title) => {
    const { log, from } = recordedLog()
    const { ask } = asking(appWith({ threads: 1, queue: 4 }, log))
    const [died, next] = await Promise.all([
      ask('/v1/estimates', estimateOf(title)),
      ask('/v1/estimates', estimateOf('next')),
    ])
    expect(died.status).toBe(500)
    expect(problemIn(died)).toMatchObject({ type: '/docs/problems#internal-error' })
    expect(died.text).not.toContain('secret')
    expect(from('warn')).toMatchObject([{ level: 'error', template: '/v1/estimates', status: 500 }])
    expect(next.status).toBe(200)
  },
)

test('when the client goes away its work is given up, and the thread is free', async () => {
  const { log, from } = recordedLog()
  const serving = await serve(appWith({ threads: 1, queue: 0 }, log), { host: '127.0.0.1', port: 0 })
  onTestFinished(() => serving.drain())
  const post = (title: string, signal?: AbortSignal) =>
    fetch(`${serving.url}/v1/estimates`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(planWith({ title })),
      ...(signal && { signal }),
    })
  const gone = new AbortController()
  const abandoned = post('spin for a minute', gone.signal)
  await new Promise((resolve) => setTimeout(resolve, 50))
  expect((await post('finds no room')).status).toBe(503)
  gone.abort()
  await expect(abandoned).rejects.toThrow()
  // A thread that was stopped in the middle of its work is replaced, which takes as long as it takes.
  await vi.waitFor(async () => expect((await post('finds room')).status).toBe(200), { timeout: 20_000, interval: 100 })
  expect(from('warn')).toEqual([])
})
