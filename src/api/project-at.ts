import type { Context } from 'hono'
import type { EstimatePart } from '../estimate/answer.ts'
import { asWritten, readPlan } from '../estimate/read-plan.ts'
import type { PlanOnPaper } from '../paper/papers.ts'
import type { Project, ProjectStore } from '../projects/store.ts'
import { workOutProject } from '../projects/working-out.ts'
import { NOTHING } from '../shed/stock.ts'
import type { Workers } from '../workers/workers.ts'
import { type Refusal, unacceptable } from './problem.ts'
import { readJsonBody } from './request/json-body.ts'
import { MISSING_PROJECT, MISSING_REVISION } from './request/precondition.ts'
import { countParameter } from './request/query.ts'

/** The parameter that asks for an earlier revision of a project. */
export const REVISION_ASKED = countParameter('RevisionAsked', { least: 1, most: 2 ** 31 - 1 })
  .optional()
  .openapi({ param: { description: 'The number of a revision. The latest one when left out.' } })

export type Found =
  | { readonly ok: true; readonly project: Project }
  | { readonly ok: false; readonly refusal: Refusal<'not-found'> }

/** A project as it is, or as it was at a revision. */
export async function projectAt(store: ProjectStore, id: string, revision: number | undefined): Promise<Found> {
  const project = revision === undefined ? await store.get(id) : await store.revision(id, revision)
  if (project) return { ok: true, project }
  return { ok: false, refusal: revision === undefined ? MISSING_PROJECT : MISSING_REVISION }
}

type Worked =
  | { readonly ok: true; readonly of: PlanOnPaper }
  | { readonly ok: false; readonly refusal: Refusal<'unacceptable-content'> }

/** Its plan and estimate, with the stock that is reserved for it. */
export async function workOutAt(
  store: ProjectStore,
  workers: Workers,
  project: Project,
  parts?: readonly EstimatePart[],
): Promise<Worked> {
  const worked = workOutProject(workers, project, await store.reserved(project.id, project.revision), parts)
  if (!worked.ok) return { ok: false, refusal: unacceptable(worked.faults) }
  return { ok: true, of: { plan: worked.stocked, estimate: worked.estimate } }
}

/** The same of a plan that is sent, without the shed; in a worker thread alone. */
export async function workOutSent(
  c: Context,
  workers: Workers,
  parts?: readonly EstimatePart[],
): Promise<Worked | Refused> {
  const body = await readJsonBody(c)
  if (!body.ok) return body
  const read = readPlan(body.value)
  if (!read.ok) return { ok: false, refusal: unacceptable(read.faults) }
  workers.refuseHere()
  const worked = workers.estimate({ plan: read.plan, stock: NOTHING, parts, sent: body.value })
  if (!worked.ok) return { ok: false, refusal: unacceptable(asWritten(worked.faults, body.value)) }
  return { ok: true, of: { plan: worked.stocked, estimate: worked.estimate } }
}

type Refused = Extract<Awaited<ReturnType<typeof readJsonBody>>, { readonly ok: false }>
