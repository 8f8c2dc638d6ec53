import type { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { EstimatePart } from '../estimate/answer.ts'
import { PARTS_OF_TABLE } from '../paper/estimate-tables.ts'
import type { Project, ProjectStore } from '../projects/store.ts'
import { workOutProject } from '../projects/working-out.ts'
import type { Workers } from '../workers/workers.ts'
import { problem, type Refusal, unacceptable } from './problem.ts'
import type { TableOptions, WorkbookOptions } from './request/table-options.ts'
import { problems } from './responses.ts'
import {
  type Clock,
  originOf,
  sendIfChanged,
  tableFile,
  tableRequest,
  workbookFile,
  workbookRequest,
} from './tables-answer.ts'

/** The problems of requests for the tables of a project. */
export const NO_TABLES = problems(
  'bad-parameter',
  'not-found',
  'not-acceptable',
  'unacceptable-content',
  'unavailable',
  'too-busy',
)

/**
 * Answers requests for the tables of saved projects, by id or by link. The project is looked up first, so that a client
 * without access to it learns nothing else.
 *
 * @param missing the answer if there is no such project
 */
export function projectTables(store: ProjectStore, workers: Workers, clock: Clock, missing: Refusal<'not-found'>) {
  const workOut = async (c: Context, project: Project, parts?: readonly EstimatePart[]) =>
    workOutProject(workers, project, await store.reserved(project.id, project.revision), c.req.raw, parts)

  return {
    async table(c: Context, project: Project | null, file: string, options: z.output<typeof TableOptions>) {
      if (!project) return problem(c, missing)
      const request = tableRequest(c, file, options)
      if (!request.ok) return problem(c, request.refusal)
      const worked = await workOut(c, project, PARTS_OF_TABLE[request.value.name])
      if (!worked.ok) return problem(c, unacceptable(worked.faults))
      return sendIfChanged(c, tableFile(worked.estimate, request.value, originOf(project, clock)))
    },

    async workbook(c: Context, project: Project | null, options: z.output<typeof WorkbookOptions>) {
      if (!project) return problem(c, missing)
      const request = workbookRequest(c, options)
      if (!request.ok) return problem(c, request.refusal)
      const worked = await workOut(c, project)
      if (!worked.ok) return problem(c, unacceptable(worked.faults))
      return sendIfChanged(c, await workbookFile(worked.estimate, request.value, originOf(project, clock)))
    },
  }
}
