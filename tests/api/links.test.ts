import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { tokenHash } from '../../src/projects/link-token.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { recordedLog } from '../log/recorded.ts'
import { temporaryStore } from '../servers/databases.ts'
import { type Answer, asking, placesIn, planWith } from './asking.ts'

let store: ProjectStore
let ask: ReturnType<typeof asking>['ask']

beforeAll(async () => {
  store = await temporaryStore()
  ask = asking(createApp({ store, workers: inThisThread })).ask
})
afterAll(() => store.close())

interface Link {
  id: string
  label: string
  token: string
  tables: string[]
  workbook: string
  sheets: string
}

const newProject = async (name = 'Spur') => (await store.create({ name, notes: '', plan: planWith() })).id
async function newLink(project: string, label = 'stock list'): Promise<Link> {
  const answer = await ask(`/v1/projects/${project}/links`, { method: 'POST', json: { label } })
  expect(answer.status).toBe(201)
  expect(answer.headers.get('cache-control')).toBe('no-store')
  return JSON.parse(answer.text)
}

test('a link gives the tables of its project, the same as the project itself, and is listed without its token', async () => {
  const project = await newProject()
  const { token, tables, workbook, sheets, ...link } = await newLink(project)
  expect(token).toMatch(/^[A-Za-z0-9_-]{43}$/)
  expect(link).toMatchObject({ label: 'stock list', lastUsedAt: null })
  expect(tables).toContain(`/v1/linked/${token}/tables/cut-list.csv`)
  for (const address of tables) {
    const own = await ask(address.replace(`/v1/linked/${token}`, `/v1/projects/${project}`))
    const linked = await ask(address)
    expect([linked.status, linked.text]).toEqual([200, own.text])
    expect(linked.headers.get('cache-control')).toBe('private, no-cache')
    expect(linked.headers.get('referrer-policy')).toBe('no-referrer')
    expect(linked.headers.get('x-robots-tag')).toBe('noindex')
  }
  expect((await ask(workbook)).status).toBe(200)
  const own = await ask(`/v1/projects/${project}/sheets.pdf?for=saw`)
  const printed = await ask(`${sheets}?for=saw`)
  expect([printed.status, printed.headers.get('etag')]).toEqual([200, own.headers.get('etag')])
  expect(printed.headers.get('content-type')).toBe('application/pdf')
  for (const name of ['cache-control', 'x-robots-tag'])
    expect(printed.headers.get(name)).toBe({ 'cache-control': 'private, no-cache', 'x-robots-tag': 'noindex' }[name])
  expect((await ask(`/v1/linked/${token}/tables/elements.csv?units=in&sep=semicolon&decimal=comma`)).text).toContain(
    'fromIn',
  )

  const listed = await ask(`/v1/projects/${project}/links`)
  expect(listed.text).not.toContain(token)
  expect(listed.text).not.toContain(tokenHash(token)!)
  expect(JSON.parse(listed.text).items).toEqual([{ ...link, lastUsedAt: expect.any(String) }])
})

test('what gives nothing gives the same nothing: unknown, malformed, revoked, of a deleted project', async () => {
  const project = await newProject()
  const revoked = await newLink(project)
  const removed = await ask(`/v1/projects/${project}/links/${revoked.id}`, { method: 'DELETE' })
  expect([removed.status, removed.text]).toEqual([204, ''])
  const deleted = await newProject()
  const orphaned = await newLink(deleted)
  await store.remove(deleted, 'any')
  const live = await newLink(project)

  const told = ({ status, headers, text }: Answer) => {
    const { instance, ...body } = text === '' ? { instance: null } : JSON.parse(text)
    expect(instance === null || typeof instance === 'string').toBe(true)
    const kept = [...headers].filter(([name]) => name !== 'x-request-id')
    return JSON.stringify([status, kept, body])
  }
  const bad = [
    revoked.token,
    orphaned.token,
    'x'.repeat(43),
    'x',
    `${live.token}x`,
    live.token.toLowerCase(),
    '%00',
    project,
  ]
  for (const method of ['GET', 'HEAD']) {
    for (const rest of ['tables/bill.csv', 'tables/bill.json', 'tables/none.csv', 'workbook.xlsx', 'sheets.pdf']) {
      const answers = await Promise.all(bad.map((token) => ask(`/v1/linked/${token}/${rest}`, { method })))
      expect(answers.map(({ status }) => status)).toEqual(bad.map(() => 404))
      expect(new Set(answers.map(told)).size).toBe(1)
      for (const { text } of answers) for (const token of bad.slice(0, 3)) expect(text).not.toContain(token)
    }
  }
  // Other methods are answered alike, whatever the token.
  for (const method of ['OPTIONS', 'POST', 'PUT', 'DELETE', 'PROPFIND']) {
    const answers = await Promise.all(
      [live.token, ...bad].map((token) => ask(`/v1/linked/${token}/tables/bill.csv`, { method })),
    )
    expect(new Set(answers.map(told)).size).toBe(1)
    expect(answers[0]!.headers.get('allow')).toBe('GET, HEAD, OPTIONS')
  }
})

test('a link is good for nothing else, and of no other project', async () => {
  const [one, other] = [await newProject('One'), await newProject('Other')]
  const link = await newLink(one)
  for (const rest of ['', '/estimate', '/links', '/bill.csv', '/tables', '/../projects'])
    expect((await ask(`/v1/linked/${link.token}${rest}`)).status).toBe(404)
  expect((await ask(`/v1/projects/${link.token}/tables/bill.csv`)).status).toBe(404)
  expect((await ask(`/v1/projects/${other}/links/${link.id}`, { method: 'DELETE' })).status).toBe(404)
  expect((await ask(`/v1/linked/${link.token}/tables/bill.csv`)).status).toBe(200)
})

test('a label is asked for, and so many links there are', async () => {
  const project = await newProject()
  const path = `/v1/projects/${project}/links`
  expect(placesIn(await ask(path, { method: 'POST', json: {} }))).toEqual(['/label'])
  expect(placesIn(await ask(path, { method: 'POST', json: { label: ' ', for: 'x' } })).sort()).toEqual([
    '/for',
    '/label',
  ])
  expect((await ask(path, { method: 'POST', json: { label: 'x'.repeat(101) } })).status).toBe(422)
  for (let n = 0; n < 50; n++) await newLink(project, `link ${n}`)
  const over = await ask(path, { method: 'POST', json: { label: 'one more' } })
  expect(over.status).toBe(422)
  expect(over.text).toContain('revoke one')
})

describe('a token', () => {
  test('stands in no line of the log, whatever fails', async () => {
    const { log, lines } = recordedLog()
    const token = 'A'.repeat(43)
    for (const error of [new Error('broken'), new StoreError('unavailable', 'gone')]) {
      const failing: ProjectStore = { ...store, linked: () => Promise.reject(error) }
      const answer = await asking(createApp({ store: failing, workers: inThisThread, log })).ask(
        `/v1/linked/${token}/tables/bill.csv`,
      )
      expect(answer.status).toBe(error instanceof StoreError ? 503 : 500)
      expect(answer.text).not.toContain(token)
    }
    expect(lines).toHaveLength(2)
    for (const line of lines) expect(line).not.toContain(token)
    for (const line of lines) expect(line).toContain('"/v1/linked/{token}/tables/{file}"')
  })
})
