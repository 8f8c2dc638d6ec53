import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { Estimate, EstimatePart } from '../../estimate/answer.ts'
import { asWritten, readPlan } from '../../estimate/read-plan.ts'
import { PARTS_OF_TABLE } from '../../paper/estimate-tables.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { ProjectStore } from '../../projects/store.ts'
import { NOTHING } from '../../shed/stock.ts'
import type { Workers } from '../../workers/workers.ts'
import { EXAMPLE_PLANS } from '../example-plans.ts'
import { IF_NONE_MATCH, PROJECT_ID, UNCHANGED } from '../parameters.ts'
import { problem, unacceptable } from '../problem.ts'
import { NO_TABLES, projectTables } from '../project-tables.ts'
import { readJsonBody } from '../request/json-body.ts'
import { MISSING_PROJECT } from '../request/precondition.ts'
import { ProjectTableOptions, TableOptions, WorkbookOptions } from '../request/table-options.ts'
import { jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'
import { TABLE_ANSWERS, TABLE_FILE, TABLES, WORKBOOK, WORKBOOK_ANSWERS } from '../table-documents.ts'
import { type Clock, originOf, send, tableFile, tableRequest, workbookFile, workbookRequest } from '../tables-answer.ts'

const projectTable = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/tables/{file}',
  operationId: 'projectTable',
  tags: ['Tables'],
  summary: 'One table of a project’s estimate',
  description: TABLES,
  parameters: [PROJECT_ID, TABLE_FILE, IF_NONE_MATCH],
  request: { query: ProjectTableOptions },
  responses: { ...TABLE_ANSWERS, ...UNCHANGED, ...NO_TABLES },
})

const projectWorkbook = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/workbook.xlsx',
  operationId: 'projectWorkbook',
  tags: ['Tables'],
  summary: 'All tables of a project’s estimate as a workbook',
  description: WORKBOOK,
  parameters: [PROJECT_ID, IF_NONE_MATCH],
  request: { query: WorkbookOptions },
  responses: { ...WORKBOOK_ANSWERS, ...UNCHANGED, ...NO_TABLES },
})

const planTable = createRoute({
  method: 'post',
  path: '/v1/tables/{file}',
  operationId: 'planTable',
  tags: ['Tables'],
  summary: 'One table of a plan’s estimate',
  description: TABLES,
  parameters: [TABLE_FILE],
  request: { query: TableOptions, body: jsonBody('Plan', 'The plan.', EXAMPLE_PLANS) },
  responses: { ...TABLE_ANSWERS, ...problems(...REFUSALS_OF_A_BODY, 'not-found', 'too-busy', 'too-much-work') },
})

const planWorkbook = createRoute({
  method: 'post',
  path: '/v1/workbook.xlsx',
  operationId: 'planWorkbook',
  tags: ['Tables'],
  summary: 'All tables of a plan’s estimate as a workbook',
  description: WORKBOOK,
  request: { query: WorkbookOptions, body: jsonBody('Plan', 'The plan.', EXAMPLE_PLANS) },
  responses: { ...WORKBOOK_ANSWERS, ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work') },
})

/** Before the plan is read, nothing is refused that its units may allow. */
const ANY_UNITS = { units: 'imperial' }

export function mountTables(api: OpenAPIHono, store: ProjectStore, workers: Workers, clock: Clock): void {
  const ofProjects = projectTables(store, workers, clock, MISSING_PROJECT, true)

  api.openapi(projectTable, async (c) => {
    const { since, ...options } = c.req.valid('query')
    return ofProjects.table(c, await store.get(c.req.param('id')), c.req.param('file'), options, since)
  })

  api.openapi(projectWorkbook, async (c) =>
    ofProjects.workbook(c, await store.get(c.req.param('id')), c.req.valid('query')),
  )

  const originOfUnsaved = ({ title }: Estimate) => originOf({ name: title, revision: null }, clock)

  const readBody = async (c: Context) => {
    const body = await readJsonBody(c)
    if (!body.ok) return body
    const read = readPlan(body.value)
    return read.ok ? { ...read, sent: body.value } : ({ ok: false, refusal: unacceptable(read.faults) } as const)
  }

  const workOutBody = (plan: PlanInput, sent: unknown, parts?: readonly EstimatePart[]) => {
    const result = workers.estimate({ plan, stock: NOTHING, parts })
    if (result.ok) return result
    return { ok: false, refusal: unacceptable(asWritten(result.faults, sent)) } as const
  }

  api.openapi(planTable, async (c) => {
    const asked = tableRequest(c, c.req.param('file'), c.req.valid('query'), ANY_UNITS)
    if (!asked.ok) return problem(c, asked.refusal)
    const read = await readBody(c)
    if (!read.ok) return problem(c, read.refusal)
    const request = tableRequest(c, c.req.param('file'), c.req.valid('query'), read.plan)
    if (!request.ok) return problem(c, request.refusal)
    const worked = workOutBody(read.plan, read.sent, PARTS_OF_TABLE[request.value.name])
    if (!worked.ok) return problem(c, worked.refusal)
    return send(c, tableFile(worked.estimate, request.value, originOfUnsaved(worked.estimate)))
  })

  api.openapi(planWorkbook, async (c) => {
    const asked = workbookRequest(c, c.req.valid('query'), ANY_UNITS)
    if (!asked.ok) return problem(c, asked.refusal)
    const read = await readBody(c)
    if (!read.ok) return problem(c, read.refusal)
    const request = workbookRequest(c, c.req.valid('query'), read.plan)
    if (!request.ok) return problem(c, request.refusal)
    const worked = workOutBody(read.plan, read.sent)
    if (!worked.ok) return problem(c, worked.refusal)
    return send(c, await workbookFile(worked.estimate, request.value, originOfUnsaved(worked.estimate)))
  })
}
