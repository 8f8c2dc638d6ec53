import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { ESTIMATE } from '../../estimate/answer.ts'
import type { Project, ProjectStore } from '../../projects/store.ts'
import { workOutProject } from '../../projects/working-out.ts'
import type { Client, Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { billCsv } from '../bill-csv.ts'
import { fileName } from '../file-name.ts'
import { PROJECT_ID } from '../parameters.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { MISSING_PROJECT } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { CSV, csv, json, problems } from '../responses.ts'

const tags = ['Projects', 'Estimates']
const refusals = problems(
  'bad-parameter',
  'not-found',
  'not-acceptable',
  'unacceptable-content',
  'unavailable',
  'too-busy',
)

const estimateEndpoint = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/estimate',
  operationId: 'estimateProject',
  tags,
  summary: 'Estimate the plan of a project',
  description:
    'Worked out from the saved plan at every request. Where the plan does not say what is on hand, the stock reserved for this project in the shed counts: older projects come first, and no stick is reserved twice. A plan that this version cannot work out is answered with 422; the pointers of its faults start from the project, with /plan.',
  middleware: answersIn('application/json'),
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: { 200: json(answerSchema(ESTIMATE), 'The estimate.'), ...refusals },
})

const billEndpoint = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/bill.csv',
  operationId: 'projectBill',
  tags,
  summary: 'The shopping list of a project as CSV',
  description:
    'RFC 4180, one line for each item, without a total. Numbers are plain; a text that a spreadsheet would run as a formula gets an apostrophe in front.',
  middleware: answersIn(CSV),
  parameters: [PROJECT_ID],
  request: { query: query({}) },
  responses: {
    200: csv('The lines of the bill.'),
    ...refusals,
  },
})

export function mountProjectEstimate(api: OpenAPIHono, store: ProjectStore, workers: Workers): void {
  const workOut = async (project: Project, client: Client) =>
    workOutProject(workers, project, await store.reserved(project.id, project.revision), client)

  api.openapi(estimateEndpoint, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    const worked = await workOut(project, c.req.raw)
    return worked.ok ? c.json(worked.estimate, 200) : problem(c, unacceptable(worked.faults))
  })

  api.openapi(billEndpoint, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    const worked = await workOut(project, c.req.raw)
    if (!worked.ok) return problem(c, unacceptable(worked.faults))
    return c.body(billCsv(worked.estimate.bill), 200, {
      'Content-Type': 'text/csv; charset=utf-8; header=present',
      'Content-Disposition': `attachment; ${fileName(project.name, 'bill.csv')}`,
    })
  })
}
