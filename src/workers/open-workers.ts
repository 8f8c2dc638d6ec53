import type { PlanInput } from '../plan/rows/plan.ts'
import { usesReadyMade } from '../shed/panels-from-stock.ts'
import { onTheSpot } from './on-the-spot.ts'
import { openPool } from './worker-pool.ts'
import type { Workers } from './workers.ts'

/** Work that may wait for a thread. A thorough plan takes some seconds, and nobody waits for minutes. */
const QUEUE = 8

/**
 * What is done in less than some tens of milliseconds is done on the spot. Beyond these sizes even a quick cut plan, or
 * the lining of a curve, may keep everybody else waiting for tenths of a second.
 */
const QUICK = { tracks: 10, elements: 500, runs: 20, stations: 60 } as const

/** The bundle has the worker beside itself. */
const WORKER = new URL(import.meta.url.endsWith('.ts') ? './worker.ts' : './worker.js', import.meta.url)

/** The search as the service has it: what is quick on the spot, everything else in worker threads. */
export function openWorkers({ threads }: { readonly threads: number }): Workers & { close(): Promise<void> } {
  const pool = openPool<typeof import('./worker.ts')>(WORKER, { threads, queue: QUEUE })
  return {
    estimate(stocked, asker) {
      return isQuick([stocked.plan]) ? onTheSpot.estimate(stocked, asker) : pool.run('estimate', stocked, asker)
    },
    billSince(revisions, asker) {
      const plans = revisions.map(({ plan }) => plan)
      return isQuick(plans) ? onTheSpot.billSince(revisions, asker) : pool.run('billSince', revisions, asker)
    },
    compareMaterials(asked, asker) {
      const quick = isQuick(asked.choices.map(() => asked.plan))
      return quick ? onTheSpot.compareMaterials(asked, asker) : pool.run('compareMaterials', asked, asker)
    },
    planCutList(problem, asker) {
      const quick = problem.effort !== 'thorough' && problem.runs.length <= QUICK.runs
      return quick ? onTheSpot.planCutList(problem, asker) : pool.run('planCutList', problem, asker)
    },
    checkBend(input, asker) {
      const hasTargets = input.radiusMm !== undefined || input.proposedMm !== undefined
      const quick = hasTargets || input.readingsMm.length <= QUICK.stations
      return quick ? onTheSpot.checkBend(input, asker) : pool.run('checkBend', input, asker)
    },
    close: () => pool.close(),
  }
}

/** Whether plans together can be worked out while everybody waits. */
function isQuick(plans: readonly PlanInput[]): boolean {
  const tracks = plans.reduce((sum, plan) => sum + plan.tracks.length, 0)
  const elements = plans.reduce((sum, plan) => plan.tracks.reduce((so, track) => so + track.elements.length, sum), 0)
  if (plans.some(({ effort }) => effort === 'thorough')) return false
  // Some cut plans are made to compare ready-made track with loose rail.
  if (plans.some(({ supplies }) => usesReadyMade(supplies))) return false
  return tracks <= QUICK.tracks && elements <= QUICK.elements
}
