import { asWritten, inPlan, readPlan } from '../estimate/read-plan.ts'
import type { Fault } from '../measure/fault.ts'
import type { BillSince, PlannedRevision } from '../shed/bill-since.ts'
import type { Workers } from '../workers/workers.ts'
import type { Project, ProjectStore } from './store.ts'

export type BillOfProjectSince =
  | {
      readonly ok: true
      readonly bill: BillSince
      /** The revisions whose bills count as bought: those asked for that were not used up by building. */
      readonly since: readonly number[]
    }
  /** There is no such revision. */
  | { readonly ok: false; readonly missing: true }
  | { readonly ok: false; readonly missing: false; readonly faults: readonly Fault[] }

/**
 * What is still to buy for the current revision of a project after the bills of earlier ones were bought. What was
 * bought for a revision up to the last one that was built is used up, and a finding says so.
 */
export async function billOfProjectSince(
  store: ProjectStore,
  workers: Workers,
  project: Project,
  revisions: readonly number[],
): Promise<BillOfProjectSince> {
  const builds = (await store.builds(project.id)) ?? []
  const lastBuilt = builds.at(-1)?.revision ?? 0
  const asked = [...new Set(revisions)].sort((a, b) => a - b)
  const since = asked.filter((revision) => revision > lastBuilt)

  const earlier = await Promise.all(asked.map((revision) => store.revision(project.id, revision)))
  if (earlier.includes(null)) return { ok: false, missing: true }
  const planned: PlannedRevision[] = []
  for (const one of [...earlier.filter((each) => since.includes(each!.revision)), project] as Project[]) {
    const read = readPlan(one.plan)
    if (!read.ok) return { ok: false, missing: false, faults: read.faults.map(inPlan) }
    planned.push({ plan: read.plan, stock: await store.reserved(project.id, one.revision) })
  }
  const result = workers.billSince(planned)
  if (!result.ok) return { ok: false, missing: false, faults: asWritten(result.faults, project.plan).map(inPlan) }
  const { findings, ...bill } = result.bill
  const used = asked.filter((revision) => revision <= lastBuilt).map((revision) => usedUp(revision, lastBuilt))
  return { ok: true, bill: { ...bill, findings: [...findings, ...used] }, since }
}

function usedUp(revision: number, built: number): BillSince['findings'][number] {
  return {
    rule: 'bought-before',
    severity: 'note',
    track: null,
    element: null,
    message: `What was bought for revision ${revision} is used up, because revision ${built} was built. What was left over is in the shed.`,
    measured: null,
    limit: null,
    unit: null,
    cure: 'None needed.',
  }
}
