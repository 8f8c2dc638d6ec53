import type { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { EstimatePart } from '../estimate/answer.ts'
import { PARTS_OF_TABLE } from '../paper/estimate-tables.ts'
import { billOfProjectSince } from '../projects/bill-since.ts'
import type { Project, ProjectStore } from '../projects/store.ts'
import { workOutProject } from '../projects/working-out.ts'
import type { Workers } from '../workers/workers.ts'
import { badParameters, problem, type Refusal, unacceptable } from './problem.ts'
import { MISSING_REVISION } from './request/precondition.ts'
import type { TableOptions, WorkbookOptions } from './request/table-options.ts'
import { problems, REFUSALS_OF_A_PROJECT } from './responses.ts'
import {
  billSinceFile,
  type Clock,
  originOf,
  sendIfChanged,
  type TableRequest,
  tableFile,
  tableRequest,
  workbookFile,
  workbookRequest,
} from './tables-answer.ts'

/** The problems of requests for the tables of a project. */
export const NO_TABLES = problems(...REFUSALS_OF_A_PROJECT)

/**
 * Answers requests for the tables of saved projects, by id or by link. The project is looked up first, so that a client
 * without access to it learns nothing else.
 *
 * @param missing the answer if there is no such project
 * @param follows whether the tables are in the units of the plan. Those of a link are not: formulas point to them.
 */
export function projectTables(
  store: ProjectStore,
  workers: Workers,
  clock: Clock,
  missing: Refusal<'not-found'>,
  follows: boolean,
) {
  const workOut = async (project: Project, parts?: readonly EstimatePart[]) =>
    workOutProject(workers, project, await store.reserved(project.id, project.revision), parts)

  const tableSince = async (c: Context, project: Project, request: TableRequest, since: readonly number[]) => {
    if (request.name !== 'bill') return problem(c, badParameters([ONLY_THE_BILL]))
    const result = await billOfProjectSince(store, workers, project, since)
    if (!result.ok) return problem(c, result.missing ? MISSING_REVISION : unacceptable(result.faults))
    return sendIfChanged(c, billSinceFile(result.bill, request, originOf(project, clock)))
  }

  return {
    /** @param since the revisions whose bills were bought; only for the bill */
    async table(
      c: Context,
      project: Project | null,
      file: string,
      options: z.output<typeof TableOptions>,
      since?: readonly number[],
    ) {
      if (!project) return problem(c, missing)
      const request = tableRequest(c, file, options, follows ? project.plan : {})
      if (!request.ok) return problem(c, request.refusal)
      if (since !== undefined) return tableSince(c, project, request.value, since)
      const worked = await workOut(project, PARTS_OF_TABLE[request.value.name])
      if (!worked.ok) return problem(c, unacceptable(worked.faults))
      return sendIfChanged(c, tableFile(worked.estimate, request.value, originOf(project, clock)))
    },

    async workbook(c: Context, project: Project | null, options: z.output<typeof WorkbookOptions>) {
      if (!project) return problem(c, missing)
      const request = workbookRequest(c, options, follows ? project.plan : {})
      if (!request.ok) return problem(c, request.refusal)
      const worked = await workOut(project)
      if (!worked.ok) return problem(c, unacceptable(worked.faults))
      return sendIfChanged(c, await workbookFile(worked.estimate, request.value, originOf(project, clock)))
    },
  }
}

const ONLY_THE_BILL = {
  parameter: 'since',
  code: 'contradictory',
  detail: 'only the bill depends on what was bought before',
  hint: 'leave it out, or request the table bill',
} as const
