import { onTheSpot } from './on-the-spot.ts'
import type { Search } from './search.ts'
import { openPool } from './worker-pool.ts'

/** Work that may wait for a thread. A thorough plan takes some seconds, and nobody waits for minutes. */
const QUEUE = 8

/**
 * What is done in less than some tens of milliseconds is done on the spot. Beyond these sizes even a quick cut plan, or
 * the lining of a curve, may keep everybody else waiting for tenths of a second.
 */
const QUICK = { tracks: 10, elements: 500, runs: 20, stations: 60 } as const

/** The bundle has the worker beside itself. */
const WORKER = new URL(import.meta.url.endsWith('.ts') ? './worker.ts' : './search-worker.js', import.meta.url)

/** The search as the service has it: what is quick on the spot, everything else in worker threads. */
export function openSearch({ threads }: { readonly threads: number }): Search & { close(): Promise<void> } {
  const pool = openPool<typeof import('./worker.ts')>(WORKER, { threads, queue: QUEUE })
  return {
    estimate(plan, asker) {
      const elements = plan.tracks.reduce((sum, track) => sum + track.elements.length, 0)
      const isQuick = plan.effort !== 'thorough' && plan.tracks.length <= QUICK.tracks && elements <= QUICK.elements
      return isQuick ? onTheSpot.estimate(plan, asker) : pool.run('estimate', plan, asker)
    },
    planCutList(problem, asker) {
      const isQuick = problem.effort !== 'thorough' && problem.runs.length <= QUICK.runs
      return isQuick ? onTheSpot.planCutList(problem, asker) : pool.run('planCutList', problem, asker)
    },
    checkBend(input, asker) {
      const hasTargets = input.radiusMm !== undefined || input.proposedMm !== undefined
      const isQuick = hasTargets || input.readingsMm.length <= QUICK.stations
      return isQuick ? onTheSpot.checkBend(input, asker) : pool.run('checkBend', input, asker)
    },
    close: () => pool.close(),
  }
}
