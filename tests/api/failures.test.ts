import { afterEach, expect, test, vi } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { asking, problemIn } from './asking.ts'

afterEach(() => {
  vi.restoreAllMocks()
})

function failing(error: unknown) {
  const list = async () => {
    throw error
  }
  return asking(createApp({ store: { list } as unknown as ProjectStore, workers: inThisThread })).ask
}

test('an accident is answered without a word of what it was, and logged under the id of the request', async () => {
  const log = vi.spyOn(console, 'error').mockReturnValue()
  const accident = new Error('select secret from projects where password = hunter2')
  const answer = await failing(accident)('/v1/projects', { headers: { 'X-Request-Id': 'seven' } })
  expect(answer.status).toBe(500)
  expect(problemIn(answer)).toEqual({
    type: '/docs/problems#internal-error',
    title: 'Internal error',
    status: 500,
    detail: 'The request could not be answered. The log has details under its id.',
    instance: 'seven',
    errors: [],
  })
  expect(log).toHaveBeenCalledWith(expect.stringContaining('seven'), accident)
})

test.each([
  ['unavailable', 503],
  ['refused', 500],
  ['failed', 500],
] as const)('a store that is %s gives %i', async (kind, status) => {
  vi.spyOn(console, 'error').mockReturnValue()
  const answer = await failing(new StoreError(kind, 'constraint projects_name_not_empty'))('/v1/projects')
  expect(answer.status).toBe(status)
  expect(answer.headers.get('retry-after') !== null).toBe(status === 503)
  expect(answer.text).not.toContain('constraint')
})
