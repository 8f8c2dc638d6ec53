import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { meant } from '../../measure/meant.ts'
import { billOfProjectSince } from '../../projects/bill-since.ts'
import type { ProjectStore } from '../../projects/store.ts'
import { BILL_SINCE } from '../../shed/bill-since.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { PROJECT_ID } from '../parameters.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { MISSING_PROJECT, MISSING_REVISION } from '../request/precondition.ts'
import { query } from '../request/query.ts'
import { SINCE } from '../request/table-options.ts'
import { json, problems, REFUSALS_OF_A_PROJECT } from '../responses.ts'

const endpoint = createRoute({
  method: 'get',
  path: '/v1/projects/{id}/bill',
  operationId: 'billSince',
  tags: ['Projects', 'Estimates'],
  summary: 'What is still to buy for a project',
  description:
    'The bill of the current revision after the bills of the revisions in `since` were bought, each on top of the earlier ones. What was bought counts as stock, whole and uncut, in addition to what the shed had for each revision; do not enter it as on hand as well. Two cut plans are made, one without regard to these purchases and one around them, and the cheaper one is used. All purchases together never exceed buying everything at once by more than one pack per line, unless a finding says why. If a revision was built, or a later one was, what was bought for it is used up, and what was left over is in the shed. Without `since` this is the bill of the current revision alone.',
  middleware: answersIn('application/json'),
  parameters: [PROJECT_ID],
  request: {
    query: query({ since: SINCE }),
  },
  responses: {
    200: json(answerSchema(BILL_SINCE), 'The bill.'),
    ...problems(...REFUSALS_OF_A_PROJECT),
  },
})

export function mountBillSince(api: OpenAPIHono, store: ProjectStore, workers: Workers): void {
  api.openapi(endpoint, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    const result = await billOfProjectSince(store, workers, project, c.req.valid('query').since ?? [])
    if (!result.ok) return problem(c, result.missing ? MISSING_REVISION : unacceptable(result.faults))
    return c.json(meant({ revision: project.revision, since: [...result.since], ...result.bill }), 200)
  })
}
