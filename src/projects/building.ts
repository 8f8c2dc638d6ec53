import { isDeepStrictEqual } from 'node:util'
import type { Fault } from '../measure/fault.ts'
import { leftOver } from '../shed/after-building.ts'
import type { Stock } from '../shed/stock.ts'
import type { Client, Workers } from '../workers/workers.ts'
import type { Built, Project, ProjectStore } from './store.ts'
import { workOutProject } from './working-out.ts'

/** What building a project would take from the shed and return, by its current estimate. */
export async function previewBuilding(
  store: ProjectStore,
  workers: Workers,
  project: Project,
  client: Client,
): Promise<{ ok: true; taken: Stock; returned: Stock } | { ok: false; faults: readonly Fault[] }> {
  const reserved = await store.reserved(project.id, project.revision)
  const worked = await workOutProject(workers, project, reserved, client)
  return worked.ok ? { ok: true, taken: worked.taken, returned: leftOver(worked.stocked, worked.estimate) } : worked
}

/** How often to try again when the plan or its stock changes during the estimate. */
const MOST_TRIES = 5

/**
 * Marks a project as built, by its current estimate. The estimate is made before the transaction, since it may take long; if
 * plan or stock have changed in the meantime, it is made again.
 */
export async function buildProject(
  store: ProjectStore,
  workers: Workers,
  id: string,
  expected: Parameters<ProjectStore['build']>[1],
  client: Client,
): Promise<Built<readonly Fault[]>> {
  for (let tries = 1; ; tries++) {
    const project = await store.get(id)
    if (!project) return { outcome: 'missing' }
    const reserved = await store.reserved(id, project.revision)
    const worked = await workOutProject(workers, project, reserved, client)
    let changed = false
    const result = await store.build<readonly Fault[] | null>(id, expected, (current, stock) => {
      changed = current.revision !== project.revision || !isDeepStrictEqual(stock, reserved)
      if (changed) return { ok: false, reason: null }
      if (!worked.ok) return { ok: false, reason: worked.faults }
      return { ok: true, taken: worked.taken, returned: leftOver(worked.stocked, worked.estimate) }
    })
    if (result.outcome !== 'refused') return result
    if (result.reason) return { outcome: 'refused', reason: result.reason }
    if (tries === MOST_TRIES) throw new Error('the project or its stock kept changing while it was worked out')
  }
}
