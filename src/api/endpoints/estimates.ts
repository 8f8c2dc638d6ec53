import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { asWritten, readPlan } from '../../estimate/read-plan.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { NOTHING } from '../../shed/stock.ts'
import type { Workers } from '../../workers/workers.ts'
import { EXAMPLE_PLANS } from '../example-plans.ts'
import { badParameters, type ParameterFault, problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { answeredParts, ESTIMATE_ANSWER, FIELDS } from '../request/fields-parameter.ts'
import { readJsonBody } from '../request/json-body.ts'
import { PLAN_QUERY } from '../request/plan-query.ts'
import { query } from '../request/query.ts'
import { isTable, readTableBody, unacceptableTable } from '../request/table-body.ts'
import { readTrackTable } from '../request/track-table.ts'
import { json, jsonBody, problems, REFUSALS_OF_A_BODY } from '../responses.ts'
import { ODS, XLSX } from '../tables-answer.ts'

const EXAMPLE_TABLE = 'kind,length (ft),diameter (ft),angle,turn\r\ntangent,6,,,\r\narc,,18,45,left\r\n'

/** A body that no document can hold: its example is a file of this service. */
const workbook = (format: 'xlsx' | 'ods') => ({
  schema: { type: 'string' as const, format: 'binary' },
  examples: {
    'spur-in-rows': {
      summary: 'One track, a row for each element',
      externalValue: `/docs/examples/spur-in-rows.${format}`,
    },
  },
})

const plan = jsonBody('Plan', 'The plan, or one track as a table.', EXAMPLE_PLANS)
const PLAN_OR_TABLE = {
  ...plan,
  content: {
    ...plan.content,
    'text/csv': { schema: { type: 'string' as const }, example: EXAMPLE_TABLE },
    [XLSX]: workbook('xlsx'),
    [ODS]: workbook('ods'),
  },
}

const endpoint = createRoute({
  method: 'post',
  path: '/v1/estimates',
  operationId: 'estimatePlan',
  tags: ['Estimates'],
  summary: 'Estimate a plan',
  description:
    'Send a plan to get its rail lengths, ties, joints, bend ordinates, cut plan, findings and priced bill. The answer depends only on the plan: the same plan gives the same bytes. A plan with findings is still answered with 200. Instead of a plan you can send one track as a table (CSV, XLSX or ODS), with rail and supplies as query parameters. Its columns are kind, length, radius or diameter (or degree with its chord), angle, turn and label; a unit stands in the header, as in `length (ft)`, or in the cell. Rows above the header are skipped, and so are columns of your own, which `assumptions` names. The table `elements` of this service is read as well, with all its tracks. Faults name the row and column.',
  middleware: answersIn('application/json'),
  request: { query: query({ fields: FIELDS, ...PLAN_QUERY }), body: PLAN_OR_TABLE },
  responses: {
    200: json(ESTIMATE_ANSWER, 'The estimate.'),
    ...problems(...REFUSALS_OF_A_BODY, 'too-busy', 'too-much-work'),
  },
})

export function mountEstimates(api: OpenAPIHono, workers: Workers): void {
  api.openAPIRegistry.register('Plan', schemaOf(PLAN))

  api.openapi(endpoint, async (c) => {
    const { refresh: _, fields: parts, ...parameters } = c.req.valid('query')
    if (isTable(c.req.header('content-type'))) {
      const body = await readTableBody(c)
      if (!body.ok) return problem(c, body.refusal)
      const read = readTrackTable(body.sheet, parameters)
      if (!read.ok) return problem(c, unacceptableTable(read.faults))
      const result = workers.estimate({ plan: read.plan, stock: NOTHING, parts })
      if (!result.ok) return problem(c, unacceptableTable(read.inTable(result.faults)))
      const assumptions = [...result.estimate.assumptions, ...read.assumptions]
      return c.json(answeredParts({ ...result.estimate, assumptions }, parts), 200)
    }
    const body = await readJsonBody(c, `, or text/csv, ${XLSX} or ${ODS} with a table`)
    if (!body.ok) return problem(c, body.refusal)
    const outside = Object.entries(parameters).filter(([, value]) => value !== undefined)
    if (outside.length > 0) return problem(c, badParameters(outside.map(([name]) => onlyForTable(name))))
    const read = readPlan(body.value)
    if (!read.ok) return problem(c, unacceptable(read.faults))
    const result = workers.estimate({ plan: read.plan, stock: NOTHING, parts, sent: body.value })
    if (!result.ok) return problem(c, unacceptable(asWritten(result.faults, body.value)))
    return c.json(answeredParts(result.estimate, parts), 200)
  })
}

function onlyForTable(parameter: string): ParameterFault {
  return {
    parameter,
    code: 'unknown-parameter',
    detail: 'this parameter is for a table only; a plan in JSON has its own field for it',
    hint: 'put the value into the plan',
  }
}
