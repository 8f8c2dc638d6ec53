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
import { type Found, projectAt, REVISION_ASKED, workOutAt, workOutSent } from '../project-at.ts'
import { answersIn } from '../request/accept.ts'
import { query } from '../request/query.ts'
import { type Asked, askedSheets, SHEETS_ASKED } from '../request/sheets-query.ts'
import { jsonBody, problems, REFUSALS_OF_A_BODY, REFUSALS_OF_A_PROJECT } from '../responses.ts'
import { type Clock, originOf } from '../tables-answer.ts'
import { sendTagged } from '../tagged.ts'

export const PDF = 'application/pdf'
const tags = ['Drawings']
export const SHEETS =
  'PDF with its fonts in it and text that can be searched, in the units of the plan. The line sheet has the plan to a standard scale over as many pages as it takes, with a map of the pages; the bench sheet has cards to cut out, four to a page. With for=templates a curve, a chord gauge, a turnout or the room that a car takes on a curve is printed in true size, over several pages with crosses to join them and a line of 100 mm to measure. More than 200 pages of one drawing are refused, with how many it would take; so are more than 6,000 rows and cards in all, with how many each sheet has.'

export const SHEETS_ANSWER = {
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
  description: SHEETS,
  middleware: answersIn(PDF),
  parameters: [PROJECT_ID, IF_NONE_MATCH],
  request: { query: query({ ...SHEETS_ASKED, revision: REVISION_ASKED }) },
  responses: { ...SHEETS_ANSWER, ...UNCHANGED, ...problems(...REFUSALS_OF_A_PROJECT) },
})

const ofPlan = createRoute({
  method: 'post',
  path: '/v1/sheets',
  operationId: 'printSheets',
  tags,
  summary: 'The sheets of a plan, printed',
  description: SHEETS,
  middleware: answersIn(PDF),
  request: { query: query(SHEETS_ASKED), body: jsonBody('Plan', 'The plan.', EXAMPLE_PLANS) },
  responses: { ...SHEETS_ANSWER, ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work') },
})

/** What answers requests for the sheets of saved projects, by id or by link. */
export function projectSheets(store: ProjectStore, workers: Workers, papers: Papers, clock: Clock) {
  return async (c: Context, found: Found, asked: Asked): Promise<never> => {
    if (!found.ok) return problem(c, found.refusal) as never
    workers.refuseHere()
    const worked = await workOutAt(store, workers, found.project, PARTS_ON_GROUND)
    if (!worked.ok) return problem(c, worked.refusal) as never
    const printed = await print(papers, worked.of, asked, originOf(found.project, clock))
    if (!printed.ok) return problem(c, badParameters([printed.fault])) as never
    return sendTagged(c, printed.pdf, PDF, `attachment; ${fileName(found.project.name, 'sheets.pdf')}`)
  }
}

function print(papers: Papers, of: PlanOnPaper, asked: Asked, origin: Origin) {
  return 'template' in asked ? papers.template(of, asked, origin) : papers.sheets(of, asked, origin)
}

/** Sheets and templates as PDF. Fonts are read and pages laid out: always in a worker thread. */
export function mountSheets(
  api: OpenAPIHono,
  store: ProjectStore,
  workers: Workers,
  papers: Papers,
  clock: Clock,
): void {
  const send = projectSheets(store, workers, papers, clock)

  api.openapi(ofProject, async (c) => {
    const { revision, ...options } = c.req.valid('query')
    const asked = askedSheets(options)
    if (!asked.ok) return problem(c, badParameters(asked.faults))
    return send(c, await projectAt(store, c.req.param('id'), revision), asked.asked)
  })

  api.openapi(ofPlan, async (c) => {
    const asked = askedSheets(c.req.valid('query'))
    if (!asked.ok) return problem(c, badParameters(asked.faults))
    const worked = await workOutSent(c, workers, PARTS_ON_GROUND)
    if (!worked.ok) return problem(c, worked.refusal)
    const { estimate } = worked.of
    const printed = await print(
      papers,
      worked.of,
      asked.asked,
      originOf({ name: estimate.title, revision: null }, clock),
    )
    if (!printed.ok) return problem(c, badParameters([printed.fault]))
    return sendTagged(c, printed.pdf, PDF, `attachment; ${fileName(estimate.title ?? '', 'sheets.pdf')}`)
  })
}
