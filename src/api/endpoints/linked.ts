import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { ProjectStore } from '../../projects/store.ts'
import type { Search } from '../../search/search.ts'
import { tokenHash } from '../link-token.ts'
import { IF_NONE_MATCH, LINK_TOKEN } from '../parameters.ts'
import { problem, type Refusal } from '../problem.ts'
import { problems } from '../responses.ts'
import { TableOptions, WorkbookOptions } from '../schemas/table-options.ts'
import { TABLE_ANSWERS, TABLE_FILE, TABLES, UNCHANGED, WORKBOOK, WORKBOOK_ANSWERS } from '../table-documents.ts'
import { askedTable, askedWorkbook, sendIfChanged, tableFile, workbookFile } from '../tables-answer.ts'
import { workOutProject } from '../worked-project.ts'

const refusals = problems(
  'bad-parameter',
  'not-found',
  'not-acceptable',
  'unacceptable-content',
  'unavailable',
  'too-busy',
)

const table = createRoute({
  method: 'get',
  path: '/v1/linked/{token}/tables/{file}',
  operationId: 'linkedTable',
  tags: ['Links'],
  summary: 'One table of the project that a link belongs to',
  description: TABLES,
  parameters: [LINK_TOKEN, TABLE_FILE, IF_NONE_MATCH],
  request: { query: TableOptions },
  responses: { ...TABLE_ANSWERS, ...UNCHANGED, ...refusals },
})

const workbook = createRoute({
  method: 'get',
  path: '/v1/linked/{token}/workbook.xlsx',
  operationId: 'linkedWorkbook',
  tags: ['Links'],
  summary: 'All tables of the project that a link belongs to as a workbook',
  description: WORKBOOK,
  parameters: [LINK_TOKEN, IF_NONE_MATCH],
  request: { query: WorkbookOptions },
  responses: { ...WORKBOOK_ANSWERS, ...UNCHANGED, ...refusals },
})

/** The same whether there never was such a link, it is revoked, or its project is deleted. */
const NO_LINK: Refusal<'not-found'> = { kind: 'not-found', detail: 'This link gives nothing, or no longer.' }

/** What links give: tables and nothing else, of one project and no other. */
export function mountLinked(api: OpenAPIHono, store: ProjectStore, search: Search): void {
  api.use('/v1/linked/*', async (c, next) => {
    c.header('X-Robots-Tag', 'noindex')
    c.header('Cache-Control', 'private, no-cache')
    await next()
  })

  const projectOf = async (token: string) => {
    const hash = tokenHash(token)
    return hash === null ? null : store.linked(hash)
  }
  const workOut = async (c: Context, project: NonNullable<Awaited<ReturnType<typeof projectOf>>>) =>
    workOutProject(search, project, await store.reserved(project.id, project.revision), c.req.raw)

  api.openapi(table, async (c) => {
    const project = await projectOf(c.req.param('token'))
    if (!project) return problem(c, NO_LINK)
    const asked = askedTable(c, c.req.param('file'), c.req.valid('query'))
    if (!asked.ok) return problem(c, asked.refusal)
    const worked = await workOut(c, project)
    if (!worked.ok) return problem(c, worked.refusal)
    return sendIfChanged(c, tableFile(worked.estimate, asked.asked, project.name))
  })

  api.openapi(workbook, async (c) => {
    const project = await projectOf(c.req.param('token'))
    if (!project) return problem(c, NO_LINK)
    const asked = askedWorkbook(c, c.req.valid('query'))
    if (!asked.ok) return problem(c, asked.refusal)
    const worked = await workOut(c, project)
    if (!worked.ok) return problem(c, worked.refusal)
    return sendIfChanged(c, await workbookFile(worked.estimate, asked.asked, project.name))
  })
}
