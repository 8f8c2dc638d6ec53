import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { component, moment, nullable, text, word } from '../../plan/fields/answer.ts'
import type { BackupStatus } from '../../projects/backups/backups.ts'
import type { ProjectStore } from '../../projects/store.ts'
import { StoreError } from '../../projects/store-error.ts'
import { answerSchema } from '../answers/schema.ts'
import { DISK_FULL, unavailable } from '../failures.ts'
import { problem } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { query } from '../request/query.ts'
import { json, problems } from '../responses.ts'

const tags = ['Service']
const middleware = answersIn('application/json')

const LIVE = component('Live', 'The process is alive.', { status: word(['live']) })
const READY = component('Ready', 'It can take requests.', {
  status: word(['ready']),
  backups: component('BackupStatus', 'The backups that the service writes by itself.', {
    state: word(
      ['off', 'none', 'kept', 'failing'],
      'none: nothing has been written yet; failing: the last try failed.',
    ),
    latest: nullable(moment('When the newest one was made.')),
    fault: nullable(text('Why the last try failed.')),
  }),
})

const live = createRoute({
  method: 'get',
  path: '/livez',
  operationId: 'isLive',
  tags,
  summary: 'Is the process alive?',
  description: 'Answers as long as the process runs, even when the database does not.',
  middleware,
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(LIVE), 'The process is alive.'),
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

const ready = createRoute({
  method: 'get',
  path: '/readyz',
  operationId: 'isReady',
  tags,
  summary: 'Is the service ready?',
  description:
    'Checks that the database answers and can be written to. Backups that fail are told and do not make it unready.',
  middleware,
  request: { query: query({}) },
  responses: {
    200: json(answerSchema(READY), 'The service can take requests.'),
    ...problems('bad-parameter', 'not-acceptable', 'unavailable', 'disk-full'),
  },
})

export function mountHealth(api: OpenAPIHono, store: ProjectStore, backups: () => BackupStatus): void {
  api.openapi(live, (c) => c.json({ status: 'live' as const }, 200))

  api.openapi(ready, async (c) => {
    try {
      await store.ping()
    } catch (error) {
      const full = error instanceof StoreError && error.kind === 'full'
      return problem(c, full ? DISK_FULL : unavailable(c))
    }
    return c.json({ status: 'ready' as const, backups: backups() }, 200)
  })
}
