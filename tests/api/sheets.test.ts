import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { textOfPages } from '../print/reading-pdf.ts'
import { temporaryStore } from '../servers/databases.ts'
import { asking, problemIn } from './asking.ts'

const clock = () => new Date('2026-05-31T12:00:00Z')
let store: ProjectStore
let app: ReturnType<typeof createApp>
let ask: ReturnType<typeof asking>['ask']
let project: string

beforeAll(async () => {
  store = await temporaryStore()
  app = createApp({ store, workers: inThisThread, clock })
  ask = asking(app).ask
  const made = await ask('/v1/projects', { method: 'POST', json: { name: 'Pond', plan: POND_PLAN } })
  project = `/v1/projects/${JSON.parse(made.text).id}`
})
afterAll(() => store.close())

async function pagesOf(path: string, plan?: unknown): Promise<string[]> {
  const sent = { method: 'POST', body: JSON.stringify(plan), headers: { 'Content-Type': 'application/json' } }
  const response = await app.request(path, plan === undefined ? {} : sent)
  expect(response.status).toBe(200)
  expect(response.headers.get('content-type')).toBe('application/pdf')
  return textOfPages(new Uint8Array(await response.arrayBuffer()))
}

const faultsOf = async (query: string) => {
  const { status, text } = await ask(`${project}/sheets.pdf?${query}`)
  return { status, errors: JSON.parse(text).errors }
}

describe('the sheets of a project as PDF', () => {
  test('only those that are asked for, in the order of the work', async () => {
    const text = (await pagesOf(`${project}/sheets.pdf?for=bench,saw`)).join(' ')
    expect(text.indexOf('Saw: what to cut')).toBeGreaterThanOrEqual(0)
    expect(text.indexOf('Bench: how to bend')).toBeGreaterThan(text.indexOf('Saw: what to cut'))
    expect(text).not.toContain('Shop: what to buy')
    expect(text).toContain('revision 1, 2026-05-31')
  })

  test('all of them where nothing is asked for, and the same of a plan that is sent', async () => {
    const saved = await pagesOf(`${project}/sheets.pdf`)
    const sent = await pagesOf('/v1/sheets', POND_PLAN)
    const withoutFoot = (pages: string[]) => pages.map((page) => page.replace(/revision 1|not saved/, ''))
    expect(withoutFoot(sent)).toEqual(withoutFoot(saved))
    for (const job of ['Line', 'Shop', 'Saw', 'Bench', 'Garden']) expect(saved.join(' ')).toContain(`${job}: `)
  })

  test('has an entity tag, and the name of the project', async () => {
    const { headers } = await ask(`${project}/sheets.pdf?for=shop`)
    expect(headers.get('content-disposition')).toContain("filename*=UTF-8''Pond%20sheets.pdf")
    const again = await ask(`${project}/sheets.pdf?for=shop`, { headers: { 'If-None-Match': headers.get('etag')! } })
    expect(again.status).toBe(304)
  })

  test('of an earlier revision', async () => {
    await ask(project, { method: 'PUT', json: { name: 'Newer', plan: POND_PLAN }, headers: { 'If-Match': '"1"' } })
    expect((await pagesOf(`${project}/sheets.pdf?for=shop`))[0]).toContain('revision 2')
    expect((await pagesOf(`${project}/sheets.pdf?for=shop&revision=1`))[0]).toContain('revision 1')
    expect((await ask(`${project}/sheets.pdf?revision=9`)).status).toBe(404)
  })

  test('a template', async () => {
    const [page] = await pagesOf(`${project}/sheets.pdf?for=templates&template=chord&chord=12in&rail=inner`)
    expect(page).toContain('Chord gauge for the inner rail of curve 1.3 of pond loop')
  })
})

describe('what contradicts itself is refused, every fault at once', () => {
  test.each([
    ['for=templates,saw&scale=50&turnout=W1', ['for', 'scale', 'turnout']],
    ['template=curve&element=1&chord=300', ['template', 'element', 'chord']],
    ['for=templates&element=1', ['track']],
    ['for=templates&template=turnout&rail=outer&chord=300', ['rail', 'chord']],
    ['for=templates&template=curve&car=coach', ['car']],
  ])('%s', async (query, parameters) => {
    const { status, errors } = await faultsOf(query)
    expect(status).toBe(400)
    expect(errors.map(({ parameter }: { parameter: string }) => parameter)).toEqual(parameters)
  })

  test.each(['for=kitchen', 'for=', 'for=saw&for=shop', 'paper=a5', 'scale=0', 'scale=1.5', 'template=car', 'chord=x'])(
    '%s cannot be read',
    async (query) => {
      expect((await ask(`${project}/sheets.pdf?${query}`)).status).toBe(400)
    },
  )

  test('too many pages are refused with how many there would be', async () => {
    const long = { ...POND_PLAN, tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: '100 m' }] }] }
    const refused = await ask('/v1/sheets?for=line&scale=1', { method: 'POST', json: long })
    expect(refused.status).toBe(400)
    expect(problemIn(refused).errors[0]).toMatchObject({
      parameter: 'scale',
      code: 'out-of-range',
      detail: 'at 1:1 the plan takes 364 pages; at most 200 are allowed',
    })
  })
})
