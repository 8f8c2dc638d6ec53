import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import type { Papers } from '../../paper/papers.ts'
import { tokenHash } from '../../projects/link-token.ts'
import type { ProjectStore } from '../../projects/store.ts'
import type { Workers } from '../../workers/workers.ts'
import { IF_NONE_MATCH, LINK_TOKEN, UNCHANGED } from '../parameters.ts'
import { badParameters, problem, type Refusal } from '../problem.ts'
import { NO_TABLES, projectTables } from '../project-tables.ts'
import { answersIn } from '../request/accept.ts'
import { query } from '../request/query.ts'
import { askedSheets, SHEETS_ASKED } from '../request/sheets-query.ts'
import { TableOptions, WorkbookOptions } from '../request/table-options.ts'
import { TABLE_ANSWERS, TABLE_FILE, TABLES, WORKBOOK, WORKBOOK_ANSWERS } from '../table-documents.ts'
import type { Clock } from '../tables-answer.ts'
import { PDF, projectSheets, SHEETS, SHEETS_ANSWER } from './sheets.ts'

const table = createRoute({
  method: 'get',
  path: '/v1/linked/{token}/tables/{file}',
  operationId: 'linkedTable',
  tags: ['Links'],
  summary: 'One table of the project of a link',
  description: TABLES,
  parameters: [LINK_TOKEN, TABLE_FILE, IF_NONE_MATCH],
  request: { query: TableOptions },
  responses: { ...TABLE_ANSWERS, ...UNCHANGED, ...NO_TABLES },
})

const workbook = createRoute({
  method: 'get',
  path: '/v1/linked/{token}/workbook.xlsx',
  operationId: 'linkedWorkbook',
  tags: ['Links'],
  summary: 'All tables of the project of a link as a workbook',
  description: WORKBOOK,
  parameters: [LINK_TOKEN, IF_NONE_MATCH],
  request: { query: WorkbookOptions },
  responses: { ...WORKBOOK_ANSWERS, ...UNCHANGED, ...NO_TABLES },
})

const sheets = createRoute({
  method: 'get',
  path: '/v1/linked/{token}/sheets.pdf',
  operationId: 'linkedSheets',
  tags: ['Links'],
  summary: 'The sheets of the project of a link, printed',
  description: SHEETS,
  middleware: answersIn(PDF),
  parameters: [LINK_TOKEN, IF_NONE_MATCH],
  request: { query: query(SHEETS_ASKED) },
  responses: { ...SHEETS_ANSWER, ...UNCHANGED, ...NO_TABLES },
})

/** The same whether there never was such a link, it is revoked, or its project is deleted. */
const NO_LINK: Refusal<'not-found'> = { kind: 'not-found', detail: 'There is no such link, or it was revoked.' }

/** What a link gives access to: the tables of its project and its printed sheets, and nothing else. */
export function mountLinked(
  api: OpenAPIHono,
  store: ProjectStore,
  workers: Workers,
  papers: Papers,
  clock: Clock,
): void {
  api.use('/v1/linked/*', async (c, next) => {
    c.header('X-Robots-Tag', 'noindex')
    c.header('Cache-Control', 'private, no-cache')
    await next()
  })

  const projectOf = async (token: string) => {
    const hash = tokenHash(token)
    return hash === null ? null : store.linked(hash)
  }
  const ofLinks = projectTables(store, workers, clock, NO_LINK, false)

  api.openapi(table, async (c) =>
    ofLinks.table(c, await projectOf(c.req.param('token')), c.req.param('file'), c.req.valid('query')),
  )

  api.openapi(workbook, async (c) => ofLinks.workbook(c, await projectOf(c.req.param('token')), c.req.valid('query')))

  const send = projectSheets(store, workers, papers, clock)
  api.openapi(sheets, async (c) => {
    const project = await projectOf(c.req.param('token'))
    if (!project) return problem(c, NO_LINK)
    const asked = askedSheets(c.req.valid('query'))
    if (!asked.ok) return problem(c, badParameters(asked.faults))
    return send(c, { ok: true, project }, asked.asked)
  })
}
