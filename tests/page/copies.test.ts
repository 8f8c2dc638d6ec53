import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { Backups } from '../../src/projects/backups/backups.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { textOf } from './markup.ts'
import { unsoundness } from './soundness.ts'

let folder: string
let store: ProjectStore
let backups: Backups
let app: Hono

const QUIET = { info: () => {}, warn: () => {} }
const NEVER = { afterChangeMs: 2 ** 31 - 1, betweenMs: 0 }

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'longchord-copies-'))
  store = await temporaryStore()
  backups = await Backups.begin(store, { folder, mostBytes: 1e9 }, QUIET, NEVER)
  app = createApp({ store: backups.watched(), workers: inThisThread, backups })
}, 120_000)
afterAll(async () => {
  await backups.close()
  await store.close()
  rmSync(folder, { recursive: true })
})

async function seen(response: Response) {
  const markup = await response.text()
  if (markup !== '') expect(unsoundness(markup)).toEqual([])
  return { status: response.status, headers: response.headers, markup, text: markup && textOf(markup) }
}

const get = async (path: string) => seen(await app.request(path))

async function post(path: string, fields: Record<string, string | Blob>) {
  const body = new FormData()
  for (const [name, value] of Object.entries(fields)) body.append(name, value)
  return seen(await app.request(path, { method: 'POST', headers: { 'Sec-Fetch-Site': 'same-origin' }, body }))
}

const copyIn = (markup: string) => /name="copy" value="([^"]*)"/.exec(markup)![1]!
const make = (name: string) => store.create({ name, notes: '', plan: {} })

test('a copy that was downloaded is looked at first, and then put back', async () => {
  const kept = await make('Kept & safe')
  const home = await get('/')
  expect(home.markup).toContain('href="/copies"')
  const page = await get('/copies')
  expect(page.markup).toContain('href="/v1/export" download')
  const file = new Blob([await (await app.request('/v1/export')).arrayBuffer()])

  await store.replace(kept.id, { name: 'Spoilt', notes: '', plan: {} }, 'any')
  const late = await make('Made later')
  const look = await post('/copies', { file, do: 'look' })
  expect(look.status).toBe(200)
  expect(look.text).toMatch(
    /The copy has 1 plan with 1 revision.*It replaces everything that is here now: 2 plans and the shed/,
  )
  expect(look.text).toMatch(/Removed\s*Made later\s*Set back to what they were\s*Kept & safe/)
  expect((await store.get(late.id))?.name).toBe('Made later')

  const copy = copyIn(look.markup)
  const done = await post('/copies', { copy, do: 'put' })
  expect(done.status).toBe(200)
  expect(done.text).toContain('The copy is put back')
  expect(await store.get(kept.id)).toEqual(kept)
  expect(await store.get(late.id)).toBeNull()
  const again = await post('/copies', { copy, do: 'put' })
  expect(again.status).toBe(422)
  expect(again.text).toContain('has to be sent again')

  const after = await get('/copies')
  expect(after.text).toContain('See what would change')
  const before = await post('/copies', { copy: copyIn(after.markup), do: 'look' })
  expect(before.text).toMatch(/Set back to what they were\s*Spoilt\s*Added\s*Made later/)
  expect((await post('/copies', { copy: copyIn(before.markup), do: 'put' })).status).toBe(200)
  expect((await store.get(late.id))?.name).toBe('Made later')
})

test('what is no copy, or none at all, is refused in words and changes nothing', async () => {
  const whole = await (await app.request('/v1/export')).text()
  const lines = whole.trimEnd().split('\n')
  for (const [file, said] of [
    ['name,notes\n', 'Line 1 of this file is damaged'],
    [lines.slice(0, -1).join('\n'), 'The end of this file is missing'],
    [whole.replace('projects', 'project5'), 'Line 2 of this file'],
  ] as const) {
    const refused = await post('/copies', { file: new Blob([file]), do: 'put' })
    expect([refused.status, refused.text]).toEqual([422, expect.stringContaining(said)])
  }
  for (const copy of ['', 'sent x', 'backup ../../etc/passwd', 'backup longchord-999999-2026-01-01T000000Z.jsonl', 'x'])
    expect((await post('/copies', { copy, do: 'put' })).status).toBe(422)
  expect((await post('/copies', { file: new Blob(['']), do: 'look' })).status).toBe(422)
  const json = { method: 'POST', headers: { 'Content-Type': 'application/json', 'Sec-Fetch-Site': 'same-origin' } }
  expect((await seen(await app.request('/copies', { ...json, body: '{}' }))).status).toBe(415)
  const foreign = { method: 'POST', headers: { 'Sec-Fetch-Site': 'cross-site', Origin: 'https://evil.example' } }
  expect((await app.request('/copies', { ...foreign, body: new FormData() })).status).toBe(403)
  expect(await (await app.request('/v1/export')).text()).toBe(whole)
})

test('without backups of its own the service still has the page', async () => {
  const without = createApp({ store, workers: inThisThread })
  const { text, status } = await seen(await without.request('/copies'))
  expect(status).toBe(200)
  expect(text).toContain('makes no backups by itself')
})

test('a deleted plan is listed with a button that restores it', async () => {
  const { id } = await make('Gone <b>')
  expect((await get('/')).markup).not.toContain('href="/deleted"')
  const gone = await post(`/plans/${id}/delete`, { revision: '1' })
  expect([gone.status, gone.headers.get('location')]).toEqual([303, '/deleted'])
  expect((await get('/')).markup).toContain('href="/deleted"')
  const list = await get('/deleted')
  expect(list.text).toMatch(/Deleted in the last 30 days.*Gone <b>.*Restore/s)
  expect(list.markup).toContain(`action="/plans/${id}/restore"`)
  const back = await post(`/plans/${id}/restore`, {})
  expect([back.status, back.headers.get('location')]).toEqual([303, `/plans/${id}`])
  expect((await get(`/plans/${id}`)).status).toBe(200)
  expect((await get('/deleted')).text).toContain('None.')
  expect((await post('/plans/01890a5d-ac96-774b-bcce-b302099a8057/restore', {})).status).toBe(404)
})
