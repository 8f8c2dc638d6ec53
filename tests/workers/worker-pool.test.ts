import { setTimeout as wait } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { openPool } from '../../src/workers/worker-pool.ts'
import { WorkersError } from '../../src/workers/workers-error.ts'
import { oddPool, patient } from './pools.ts'

const FULL = new WorkersError('full')
const CANCELLED = new WorkersError('cancelled')

test('runs functions by name, and passes on plain data and whatever they throw', async () => {
  const pool = oddPool({ threads: 1, queue: 4 })
  const data = { lengthMm: 1e-300, missing: undefined, list: [null, -0, 'é'] }
  expect(await pool.run('echo', data, patient)).toStrictEqual(data)
  await expect(pool.run('fail', 'too short', patient)).rejects.toThrow(new RangeError('too short'))
  expect(await pool.run('echo', 1, patient)).toBe(1)
})

test('a thread reads sources, and those that it needs later', async () => {
  expect(await oddPool({ threads: 1, queue: 1 }).run('readLater', 12.5, patient)).toBe('12.5 mm')
})

test('takes as much work as it has threads and places in the queue, and again when there is room', async () => {
  const pool = oddPool({ threads: 2, queue: 3 })
  const taken = [1, 2, 3, 4, 5].map((n) => pool.run('spin', 50 + n, patient))
  await expect(pool.run('echo', 6, patient)).rejects.toEqual(FULL)
  expect(await Promise.all(taken)).toEqual([1, 2, 3, 4, 5].map((n) => `spun ${50 + n} ms`))
  expect(await pool.run('echo', 7, patient)).toBe(7)
})

test('leaves the thread that asks alone', async () => {
  const pool = oddPool({ threads: 1, queue: 1 })
  await pool.run('echo', 1, patient)
  let ticks = 0
  const clock = setInterval(() => ticks++, 5)
  await pool.run('spin', 500, patient)
  clearInterval(clock)
  // At most 100; on a machine that does other things too, fewer. Were the work done here there would be none.
  expect(ticks).toBeGreaterThan(5)
})

test('work that nobody waits for any more is stopped, or never begun, and makes room', async () => {
  const pool = oddPool({ threads: 1, queue: 2 })
  const [running, waiting] = [new AbortController(), new AbortController()]
  const first = pool.run('spin', 60_000, running)
  const second = pool.run('spin', 60_000, waiting)
  const third = pool.run('echo', 3, patient)
  await expect(pool.run('echo', 4, patient)).rejects.toEqual(FULL)
  waiting.abort()
  await expect(second).rejects.toEqual(CANCELLED)
  await wait(100)
  running.abort()
  await expect(first).rejects.toEqual(CANCELLED)
  expect(await third).toBe(3)
  await expect(pool.run('echo', 5, { signal: AbortSignal.abort() })).rejects.toEqual(CANCELLED)
})

test('a thread that dies takes its own work with it and no other', async () => {
  const pool = oddPool({ threads: 1, queue: 8 })
  await expect(pool.run('vanish', 3, patient)).rejects.toThrow('exited with code: 3')
  const exhausted = pool.run('exhaust', null, patient)
  const next = pool.run('echo', 'still there', patient)
  await expect(exhausted).rejects.toThrow('memory')
  expect(await next).toBe('still there')

  // In an order that has left a pool without threads: stopped, then dead, then asked again.
  for (let round = 0; round < 3; round++) {
    const stopped = new AbortController()
    const spinning = pool.run('spin', 60_000, stopped)
    stopped.abort()
    await expect(spinning).rejects.toEqual(CANCELLED)
    await expect(pool.run('vanish', 1, patient)).rejects.toThrow('exited with code: 1')
    expect(await pool.run('echo', round, patient)).toBe(round)
  }
})

test('where the functions are not to be found every call is refused', async () => {
  const nowhere = new URL('./there-is-no-such-file.mjs', import.meta.url)
  const pool = openPool<{ echo: (value: number) => number }>(nowhere, { threads: 1, queue: 2 })
  for (const n of [1, 2, 3]) await expect(pool.run('echo', n, patient)).rejects.toThrow()
  await pool.close()
})

test('is closed once what it took is done, and takes nothing more', async () => {
  const pool = oddPool({ threads: 1, queue: 2 })
  const done: string[] = []
  const works = [80, 40].map(async (ms) => done.push(await pool.run('spin', ms, patient)))
  const closed = pool.close().then(() => done.push('closed'))
  await expect(pool.run('echo', 1, patient)).rejects.toEqual(CANCELLED)
  await Promise.all([...works, closed])
  expect(done).toEqual(['spun 80 ms', 'spun 40 ms', 'closed'])
  await pool.close()
})

test('can be closed before it has done anything', async () => {
  await oddPool({ threads: 1, queue: 1 }).close()
})
