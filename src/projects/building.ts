import { isDeepStrictEqual } from 'node:util'
import type { Fault } from '../measure/fault.ts'
import { leftOver } from '../shed/after-building.ts'
import type { Stock } from '../shed/stock.ts'
import type { Asker, Workers } from '../workers/workers.ts'
import type { Built, Project, ProjectStore } from './store.ts'
import { workOutProject } from './working-out.ts'

/** What building a project would take from the shed and bring back, as its estimate is now. */
export async function foreseeBuilding(
  store: ProjectStore,
  workers: Workers,
  project: Project,
  asker: Asker,
): Promise<{ ok: true; taken: Stock; returned: Stock } | { ok: false; faults: readonly Fault[] }> {
  const reserved = await store.reserved(project.id, project.revision)
  const worked = await workOutProject(workers, project, reserved, asker)
  return worked.ok ? { ok: true, taken: worked.taken, returned: leftOver(worked.stocked, worked.estimate) } : worked
}

/** Tries to build a project whose plan or stock is changed all the while are given up after so many. */
const MOST_TRIES = 5

/**
 * Builds a project as its estimate is now. The estimate is made before stock is moved, since it may take long; where plan
 * or stock have changed in between it is made again.
 */
export async function buildProject(
  store: ProjectStore,
  workers: Workers,
  id: string,
  expected: Parameters<ProjectStore['build']>[1],
  asker: Asker,
): Promise<Built<readonly Fault[]>> {
  for (let tries = 1; ; tries++) {
    const project = await store.get(id)
    if (!project) return { outcome: 'missing' }
    const reserved = await store.reserved(id, project.revision)
    const worked = await workOutProject(workers, project, reserved, asker)
    let changed = false
    const result = await store.build<readonly Fault[] | null>(id, expected, (present, stock) => {
      changed = present.revision !== project.revision || !isDeepStrictEqual(stock, reserved)
      if (changed) return { ok: false, reason: null }
      if (!worked.ok) return { ok: false, reason: worked.faults }
      return { ok: true, taken: worked.taken, returned: leftOver(worked.stocked, worked.estimate) }
    })
    if (result.outcome !== 'refused') return result
    if (result.reason) return { outcome: 'refused', reason: result.reason }
    if (tries === MOST_TRIES)
      throw new Error('the project or its stock changed again and again while it was worked out')
  }
}
