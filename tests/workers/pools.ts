import { onTestFinished } from 'vitest'
import { type OpenWorkers, openWorkers } from '../../src/workers/open-workers.ts'
import { openPool, type PoolLimits, type PoolSize, type WorkerPool } from '../../src/workers/worker-pool.ts'

type OddJobs = typeof import('./odd-jobs.ts')

/** Tests share the machine with others, behind which a thread would have to wait too long to start. */
export const QUICK = { niceness: 0 }

/** Worker threads that do odd jobs; they end with the test. */
export function oddPool(size: PoolSize): WorkerPool<OddJobs> {
  const pool = openPool<OddJobs>(new URL('./odd-jobs.ts', import.meta.url), {
    ...size,
    limits: { ...QUICK, ...size.limits },
  })
  onTestFinished(() => pool.close())
  return pool
}

/** Worker threads that answer requests, some of which go wrong. Each takes a second of work to start. */
export function oddWorkers(size: { threads: number; queue?: number; limits?: Partial<PoolLimits> }): OpenWorkers {
  const file = new URL('./odd-thread.ts', import.meta.url)
  const workers = openWorkers(file, { ...size, limits: { ...QUICK, ...size.limits } })
  onTestFinished(() => workers.close())
  return workers
}

/** A client that never disconnects. */
export const patient = { signal: new AbortController().signal }
