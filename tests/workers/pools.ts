import { onTestFinished } from 'vitest'
import { openPool, type PoolSize, type WorkerPool } from '../../src/workers/worker-pool.ts'

export type OddJobs = typeof import('./odd-jobs.ts')

/** Worker threads that do odd jobs; they end with the test. */
export function oddPool(size: PoolSize): WorkerPool<OddJobs> {
  const pool = openPool<OddJobs>(new URL('./odd-jobs.ts', import.meta.url), size)
  onTestFinished(() => pool.close())
  return pool
}

/** A client that never disconnects. */
export const patient = { signal: new AbortController().signal }
