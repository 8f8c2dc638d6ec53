import { expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { recordedLog } from '../log/recorded.ts'
import { asking, problemIn } from './asking.ts'

function failing(error: unknown) {
  const list = async () => {
    throw error
  }
  const recorded = recordedLog()
  const store = { list } as unknown as ProjectStore
  return { ...asking(createApp({ store, workers: inThisThread, log: recorded.log })), ...recorded }
}

test('an accident is answered without a word of what it was, and logged under the id of the request', async () => {
  const accident = new Error('select secret from projects where password = hunter2')
  const { ask, from } = failing(accident)
  const answer = await ask('/v1/projects?limit=7', { headers: { 'X-Request-Id': 'seven' } })
  expect(answer.status).toBe(500)
  expect(problemIn(answer)).toEqual({
    type: '/docs/problems#internal-error',
    title: 'Internal error',
    status: 500,
    detail: 'The request could not be answered. The log has details under its id.',
    instance: 'seven',
    errors: [],
  })
  expect(from('info')).toEqual([
    {
      level: 'error',
      time: expect.stringMatching(/^\d{4}-\d\d-\d\dT[\d:.]+Z$/),
      id: 'seven',
      method: 'GET',
      template: '/v1/projects',
      status: 500,
      ms: expect.any(Number),
      err: { type: 'Error', message: accident.message, stack: accident.stack },
      msg: 'request failed',
    },
  ])
})

test.each([
  ['unavailable', 503],
  ['refused', 500],
  ['failed', 500],
] as const)('a store that is %s gives %i', async (kind, status) => {
  const { ask, from } = failing(new StoreError(kind, 'constraint projects_name_not_empty'))
  const answer = await ask('/v1/projects')
  expect(from('warn')).toMatchObject([{ level: status === 503 ? 'warn' : 'error', status }])
  expect(answer.status).toBe(status)
  expect(answer.headers.get('retry-after') !== null).toBe(status === 503)
  expect(answer.text).not.toContain('constraint')
})
