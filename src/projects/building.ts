import { isDeepStrictEqual } from 'node:util'
import type { Fault } from '../measure/fault.ts'
import type { ForeseenBuilding } from '../shed/foresee-building.ts'
import type { Client, Workers } from '../workers/workers.ts'
import type { Built, Project, ProjectStore } from './store.ts'

/** What building a project would take from the shed and return, by its current estimate. */
export async function previewBuilding(
  store: ProjectStore,
  workers: Workers,
  project: Project,
  client: Client,
): Promise<ForeseenBuilding> {
  const reserved = await store.reserved(project.id, project.revision)
  return workers.foreseeBuilding({ plan: project.plan, reserved }, client)
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
    const foreseen = await workers.foreseeBuilding({ plan: project.plan, reserved }, client)
    let changed = false
    const result = await store.build<readonly Fault[] | null>(id, expected, (current, stock) => {
      changed = current.revision !== project.revision || !isDeepStrictEqual(stock, reserved)
      if (changed) return { ok: false, reason: null }
      return foreseen.ok ? foreseen : { ok: false, reason: foreseen.faults }
    })
    if (result.outcome !== 'refused') return result
    if (result.reason) return { outcome: 'refused', reason: result.reason }
    if (tries === MOST_TRIES) throw new Error('the project or its stock kept changing while it was worked out')
  }
}
