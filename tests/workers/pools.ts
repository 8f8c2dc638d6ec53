import { onTestFinished } from 'vitest'
import { openPool, type PoolSize, type WorkerPool } from '../../src/workers/worker-pool.ts'

type OddJobs = typeof import('./odd-jobs.ts')
type OddEstimates = typeof import('./odd-estimates.ts')

/** Worker threads that do odd jobs; they end with the test. */
export function oddPool(size: PoolSize): WorkerPool<OddJobs> {
  return poolOf<OddJobs>('./odd-jobs.ts', size)
}

/** Worker threads that make estimates, some of which go wrong. Each takes a second of work to start. */
export function estimatingPool(size: PoolSize): WorkerPool<OddEstimates> {
  return poolOf<OddEstimates>('./odd-estimates.ts', size)
}

function poolOf<J extends OddJobs | OddEstimates>(file: string, size: PoolSize): WorkerPool<J> {
  const pool = openPool<J>(new URL(file, import.meta.url), size)
  onTestFinished(() => pool.close())
  return pool
}

/** A client that never disconnects. */
export const patient = { signal: new AbortController().signal }
