import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { PARTS_ON_GROUND } from '../../estimate/answer.ts'
import type { Origin } from '../../paper/origin.ts'
import type { Papers, PlanOnPaper } from '../../paper/papers.ts'
import type { ProjectStore } from '../../projects/store.ts'
import type { Workers } from '../../workers/workers.ts'
import { EXAMPLE_PLANS } from '../example-plans.ts'
import { fileName } from '../file-name.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, PROJECT_ID, UNCHANGED } from '../parameters.ts'
import { badParameters, problem } from '../problem.ts'
import { projectAt, REVISION_ASKED, workOutAt, workOutSent } from '../project-at.ts'
import { answersIn } from '../request/accept.ts'
import { namesTag } from '../request/entity-tag.ts'
import { query } from '../request/query.ts'
import { type Asked, askedSheets, SHEETS_ASKED } from '../request/sheets-query.ts'
import { jsonBody, problems, REFUSALS_OF_A_BODY, REFUSALS_OF_A_PROJECT } from '../responses.ts'
import { type Clock, originOf } from '../tables-answer.ts'
import { tagOf } from '../tagged.ts'

const PDF = 'application/pdf'
const tags = ['Drawings']
const description =
  'PDF with its fonts in it and text that can be searched, in the units of the plan. The line sheet has the plan to a standard scale over as many pages as it takes, with a map of the pages; the bench sheet has cards to cut out, four to a page. With for=templates a curve, a chord gauge, a turnout or the room that a car takes on a curve is printed in true size, over several pages with crosses to join them and a line of 100 mm to measure. More than 200 pages of one drawing are refused, with how many it would take; so are more than 6,000 rows and cards in all, with how many each sheet has.'

const ANSWER = {
  200: {
    description: 'The document.',
    headers: ETAG_OF_CONTENT,
    content: { [PDF]: { schema: z.string().openapi({ format: 'binary' }) } },
  },
} as const

const ofProject = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/sheets.pdf',
  operationId: 'projectSheets',
  tags,
  summary: 'The sheets of a project, printed',
  description,
  middleware: answersIn(PDF),
  parameters: [PROJECT_ID, IF_NONE_MATCH],
  request: { query: query({ ...SHEETS_ASKED, revision: REVISION_ASKED }) },
  responses: { ...ANSWER, ...UNCHANGED, ...problems(...REFUSALS_OF_A_PROJECT) },
})

const ofPlan = createRoute({
  method: 'post',
  path: '/v1/sheets',
  operationId: 'printSheets',
  tags,
  summary: 'The sheets of a plan, printed',
  description,
  middleware: answersIn(PDF),
  request: { query: query(SHEETS_ASKED), body: jsonBody('Plan', 'The plan.', EXAMPLE_PLANS) },
  responses: { ...ANSWER, ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work') },
})

/** Sheets and templates as PDF. Fonts are read and pages laid out: always in a worker thread. */
export function mountSheets(
  api: OpenAPIHono,
  store: ProjectStore,
  workers: Workers,
  papers: Papers,
  clock: Clock,
): void {
  const print = (of: PlanOnPaper, asked: Asked, origin: Origin) =>
    'template' in asked ? papers.template(of, asked, origin) : papers.sheets(of, asked, origin)

  /** The return type fits every endpoint. */
  const answer = (c: Context, pdf: Uint8Array<ArrayBuffer>, named: string): never => {
    const headers = { ETag: tagOf(pdf), 'Content-Disposition': `attachment; ${named}` }
    if (namesTag(c.req.header('if-none-match'), headers.ETag)) return c.body(null, 304, headers) as never
    return c.body(pdf, 200, { ...headers, 'Content-Type': PDF }) as never
  }

  api.openapi(ofProject, async (c) => {
    const { revision, ...options } = c.req.valid('query')
    const asked = askedSheets(options)
    if (!asked.ok) return problem(c, badParameters(asked.faults))
    const found = await projectAt(store, c.req.param('id'), revision)
    if (!found.ok) return problem(c, found.refusal)
    workers.refuseHere()
    const worked = await workOutAt(store, workers, found.project, PARTS_ON_GROUND)
    if (!worked.ok) return problem(c, worked.refusal)
    const printed = await print(worked.of, asked.asked, originOf(found.project, clock))
    if (!printed.ok) return problem(c, badParameters([printed.fault]))
    return answer(c, printed.pdf, fileName(found.project.name, 'sheets.pdf'))
  })

  api.openapi(ofPlan, async (c) => {
    const asked = askedSheets(c.req.valid('query'))
    if (!asked.ok) return problem(c, badParameters(asked.faults))
    const worked = await workOutSent(c, workers, PARTS_ON_GROUND)
    if (!worked.ok) return problem(c, worked.refusal)
    const { estimate } = worked.of
    const printed = await print(worked.of, asked.asked, originOf({ name: estimate.title, revision: null }, clock))
    if (!printed.ok) return problem(c, badParameters([printed.fault]))
    return answer(c, printed.pdf, fileName(estimate.title ?? '', 'sheets.pdf'))
  })
}
