import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { DRAWINGS } from '../../src/paper/papers.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { asking, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

let store: ProjectStore
let ask: ReturnType<typeof asking>['ask']
let project: string
const PLAN = planWith({ title: 'First', tracks: [trackOf(TANGENT)] })

beforeAll(async () => {
  store = await temporaryStore()
  ask = asking(createApp({ store, workers: inThisThread })).ask
  const made = await ask('/v1/projects', { method: 'POST', json: { name: 'Pond "line" ü', plan: PLAN } })
  project = `/v1/projects/${JSON.parse(made.text).id}`
  const second = { name: 'Pond', plan: { ...PLAN, title: 'Second' } }
  await ask(project, { method: 'PUT', json: second, headers: { 'If-Match': '"1"' } })
})
afterAll(() => store.close())

describe('drawings of a project', () => {
  test.each(DRAWINGS)('%s is that of the plan as it was sent', async (file) => {
    const saved = await ask(`${project}/${file}`)
    const sent = await ask(`/v1/drawings/${file}`, { method: 'POST', json: { ...PLAN, title: 'Second' } })
    expect(saved.status).toBe(200)
    expect(saved.text).toBe(sent.text)
    expect(saved.headers.get('etag')).toBe(sent.headers.get('etag'))
    const again = await ask(`${project}/${file}`, { headers: { 'If-None-Match': saved.headers.get('etag')! } })
    expect(again.status).toBe(304)
  })

  test('of an earlier revision', async () => {
    expect((await ask(`${project}/plan.svg`)).text).toContain('<title>Second, plan</title>')
    expect((await ask(`${project}/plan.svg?revision=1`)).text).toContain('<title>First, plan</title>')
    expect((await ask(`${project}/plan.svg?revision=3`)).status).toBe(404)
    expect(problemIn(await ask(`${project}/plan.svg?revision=0`)).errors[0]).toMatchObject({ parameter: 'revision' })
  })

  test('a drawing for CAD is saved under the name of the project', async () => {
    const { headers } = await ask(`${project}/plan.dxf`)
    expect(headers.get('content-disposition')).toBe(`attachment; filename="plan.dxf"; filename*=UTF-8''Pond%20plan.dxf`)
  })
})

test('there is no other drawing', async () => {
  expect((await ask('/v1/drawings/plan.png', { method: 'POST', json: PLAN })).status).toBe(404)
})
