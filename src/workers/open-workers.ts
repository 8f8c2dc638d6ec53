import type { PlanInput } from '../plan/rows/plan.ts'
import { usesReadyMade } from '../shed/panels-from-stock.ts'
import { inThisThread } from './in-this-thread.ts'
import { openPool, type PoolSize, type WorkerPool } from './worker-pool.ts'
import type { Workers } from './workers.ts'

/** Pieces of work that may wait for a thread. A thorough plan takes some seconds, and no client waits for minutes. */
const QUEUE = 8

/**
 * Work up to these sizes takes less than some tens of milliseconds and is done in this thread. Above them, even a quick cut
 * plan or the lining of a curve may delay all other requests by tenths of a second.
 */
const QUICK = { tracks: 10, elements: 500, runs: 20, stations: 60 } as const

/** In the bundle the worker is beside this file. */
const WORKER = new URL(import.meta.url.endsWith('.ts') ? './worker.ts' : './worker.js', import.meta.url)

type OpenPool = Pick<WorkerPool<never>, 'queued' | 'close'>

/** Does quick work in this thread, everything else in worker threads. */
export function openWorkers(size: Pick<PoolSize, 'threads' | 'onDeath'>): Workers & OpenPool {
  const pool = openPool<typeof import('./worker.ts')>(WORKER, { ...size, queue: QUEUE })
  return {
    estimate(stocked, client) {
      return isQuick([stocked.plan]) ? inThisThread.estimate(stocked, client) : pool.run('estimate', stocked, client)
    },
    billSince(revisions, client) {
      const plans = revisions.map(({ plan }) => plan)
      return isQuick(plans) ? inThisThread.billSince(revisions, client) : pool.run('billSince', revisions, client)
    },
    compareMaterials(input, client) {
      const quick = isQuick(input.choices.map(() => input.plan))
      return quick ? inThisThread.compareMaterials(input, client) : pool.run('compareMaterials', input, client)
    },
    planCutList(problem, client) {
      const quick = problem.effort !== 'thorough' && problem.runs.length <= QUICK.runs
      return quick ? inThisThread.planCutList(problem, client) : pool.run('planCutList', problem, client)
    },
    checkBend(input, client) {
      const hasTargets = input.radiusMm !== undefined || input.proposedMm !== undefined
      const quick = hasTargets || input.readingsMm.length <= QUICK.stations
      return quick ? inThisThread.checkBend(input, client) : pool.run('checkBend', input, client)
    },
    queued: () => pool.queued(),
    close: () => pool.close(),
  }
}

/** Whether the plans together are quick to work out. */
function isQuick(plans: readonly PlanInput[]): boolean {
  const tracks = plans.reduce((sum, plan) => sum + plan.tracks.length, 0)
  const elements = plans.reduce(
    (sum, plan) => plan.tracks.reduce((count, track) => count + track.elements.length, sum),
    0,
  )
  if (plans.some(({ effort }) => effort === 'thorough')) return false
  // Comparing ready-made track with loose rail takes several cut plans.
  if (plans.some(({ supplies }) => usesReadyMade(supplies))) return false
  return tracks <= QUICK.tracks && elements <= QUICK.elements
}
