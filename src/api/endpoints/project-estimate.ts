import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { Fault } from '../../measure/fault.ts'
import type { Project, ProjectStore } from '../../projects/store.ts'
import { workOutProject } from '../../projects/working-out.ts'
import type { Stock } from '../../shed/stock.ts'
import type { Workers } from '../../workers/workers.ts'
import { billCsv } from '../bill-csv.ts'
import { engineVersion } from '../engine-version.ts'
import { fileName } from '../file-name.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, PROJECT_ID, UNCHANGED } from '../parameters.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { namesTag } from '../request/entity-tag.ts'
import { answeredParts, ESTIMATE_ANSWER, FIELDS } from '../request/fields-parameter.ts'
import { MISSING_PROJECT } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { CSV, csv, json, problems, REFUSALS_OF_A_PROJECT } from '../responses.ts'
import { tagOf } from '../tagged.ts'

const tags = ['Projects', 'Estimates']
const refusals = problems(...REFUSALS_OF_A_PROJECT)

const estimateEndpoint = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/estimate',
  operationId: 'estimateProject',
  tags,
  summary: 'Estimate the plan of a project',
  description:
    'Worked out from the saved plan. Where the plan does not say what is on hand, the stock reserved for this project in the shed counts: older projects come first, and no stick is reserved twice. A plan that this version cannot work out is answered with 422; the pointers of its faults start from the project, with /plan.',
  middleware: answersIn('application/json'),
  parameters: [PROJECT_ID, IF_NONE_MATCH],
  request: { query: query({ fields: FIELDS }) },
  responses: {
    200: { ...json(ESTIMATE_ANSWER, 'The estimate.'), headers: ETAG_OF_CONTENT },
    ...UNCHANGED,
    ...refusals,
  },
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
  parameters: [PROJECT_ID, IF_NONE_MATCH],
  request: { query: query({}) },
  responses: {
    200: { ...csv('The lines of the bill.'), headers: ETAG_OF_CONTENT },
    ...UNCHANGED,
    ...refusals,
  },
})

export function mountProjectEstimate(api: OpenAPIHono, store: ProjectStore, workers: Workers): void {
  api.openapi(estimateEndpoint, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    const { fields } = c.req.valid('query')
    const stock = await store.reserved(project.id, project.revision)
    if (has(c, tagOfEstimate(project, stock, fields))) return c.body(null, 304)
    const worked = workOutProject(workers, project, stock, fields)
    return worked.ok ? c.json(answeredParts(worked.estimate, fields), 200) : refusal(c, worked.faults)
  })

  api.openapi(billEndpoint, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    const stock = await store.reserved(project.id, project.revision)
    if (has(c, tagOfEstimate(project, stock, 'bill.csv'))) return c.body(null, 304)
    const worked = workOutProject(workers, project, stock, ['bill'])
    if (!worked.ok) return refusal(c, worked.faults)
    return c.body(billCsv(worked.estimate.bill), 200, {
      'Content-Type': 'text/csv; charset=utf-8; header=present',
      'Content-Disposition': `attachment; ${fileName(project.name, 'bill.csv')}`,
    })
  })
}

/** An estimate follows from the revision, the stock reserved for it and the program: there is no need to make it. */
function tagOfEstimate(
  { id, revision, name }: Project,
  stock: Stock,
  of: readonly string[] | string | undefined,
): string {
  return tagOf(JSON.stringify([engineVersion(), id, revision, name, stock, of ?? null]))
}

/** Whether the client already has the answer with this tag, which goes out either way. */
function has(c: Context, tag: string): boolean {
  c.header('ETag', tag)
  return namesTag(c.req.header('if-none-match'), tag)
}

/** What cannot be worked out has no tag. */
function refusal(c: Context, faults: readonly Fault[]) {
  c.header('ETag', undefined)
  return problem(c, unacceptable(faults))
}
