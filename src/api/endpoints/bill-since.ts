import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import type { Finding } from '../../estimate/answer.ts'
import { asWritten, inPlan, readPlan } from '../../estimate/read-plan.ts'
import type { Project, ProjectStore } from '../../projects/store.ts'
import type { PlannedRevision } from '../../shed/bill-since.ts'
import { BILL_SINCE } from '../../shed/bill-since.ts'
import type { Workers } from '../../workers/workers.ts'
import { answerSchema } from '../answers/schema.ts'
import { PROJECT_ID } from '../parameters.ts'
import { problem, unacceptable } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { MISSING_PROJECT, MISSING_REVISION } from '../request/precondition.ts'
import { countsParameter, query } from '../request/query.ts'
import { json, problems } from '../responses.ts'

const MOST_BILLS = 20

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
    query: query({
      since: countsParameter('Since', { least: 1, most: 2 ** 31 - 1 }, MOST_BILLS)
        .optional()
        .openapi({
          param: {
            description: 'A revision whose bill was bought; may be repeated. Nothing was bought when left out.',
          },
        }),
    }),
  },
  responses: {
    200: json(answerSchema(BILL_SINCE), 'The bill.'),
    ...problems('bad-parameter', 'not-found', 'not-acceptable', 'unacceptable-content', 'unavailable', 'too-busy'),
  },
})

export function mountBillSince(api: OpenAPIHono, store: ProjectStore, workers: Workers): void {
  api.openapi(endpoint, async (c) => {
    const project = await store.get(c.req.param('id'))
    if (!project) return problem(c, MISSING_PROJECT)
    const builds = (await store.builds(project.id)) ?? []
    const lastBuilt = builds.at(-1)?.revision ?? 0
    const since = [...new Set(c.req.valid('query').since ?? [])].sort((a, b) => a - b)
    const unbuilt = since.filter((revision) => revision > lastBuilt)

    const earlier = await Promise.all(since.map((revision) => store.revision(project.id, revision)))
    if (earlier.includes(null)) return problem(c, MISSING_REVISION)
    const planned: PlannedRevision[] = []
    for (const one of [...earlier.filter((each) => unbuilt.includes(each!.revision)), project] as Project[]) {
      const read = readPlan(one.plan)
      if (!read.ok) return problem(c, unacceptable(read.faults.map(inPlan)))
      planned.push({ plan: read.plan, stock: await store.reserved(project.id, one.revision) })
    }
    const result = await workers.billSince(planned, c.req.raw)
    if (!result.ok) return problem(c, unacceptable(asWritten(result.faults, project.plan).map(inPlan)))
    const { findings, ...bill } = result.bill
    const used = since.filter((revision) => revision <= lastBuilt).map((revision) => usedUp(revision, lastBuilt))
    return c.json({ revision: project.revision, since: unbuilt, ...bill, findings: [...findings, ...used] }, 200)
  })
}

function usedUp(revision: number, built: number): Finding {
  return {
    rule: 'bought-before',
    severity: 'note',
    track: null,
    element: null,
    message: `What was bought for revision ${revision} is used up, because revision ${built} was built. What was left over is in the shed.`,
    measured: null,
    limit: null,
    unit: null,
    cure: 'None needed.',
  }
}
