import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { CELLS } from '../../src/api/endpoints/cells.ts'
import { createApp } from '../../src/app.ts'
import { tokenHash } from '../../src/projects/link-token.ts'
import type { Project, ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import type { Workers } from '../../src/workers/workers.ts'
import { WorkersError, type WorkersErrorKind } from '../../src/workers/workers-error.ts'
import { temporaryStore } from '../servers/databases.ts'
import { type Asked, asking, committedDocument, example, planWith } from './asking.ts'

const NOBODY = '01890a5d-ac96-774b-bcce-b302099a8057'
const JSON_TYPE = { 'Content-Type': 'application/json' }

let store: ProjectStore
let closed: ProjectStore

const noSpace = () => Promise.reject(new StoreError('full', 'Only 3 MB are free on the disk.'))
const fullDisk = { ping: noSpace, importAll: noSpace } as Partial<ProjectStore> as ProjectStore

/** Workers that do nothing but fail. */
function failing(kind: WorkersErrorKind): Workers {
  const refuse = () => {
    throw new WorkersError(kind)
  }
  const refusing = Object.keys(inThisThread).map((name) => [name, refuse])
  return { ...(Object.fromEntries(refusing) as Workers), refuseLarge: () => {} }
}

beforeAll(async () => {
  store = await temporaryStore()
  closed = await temporaryStore()
  await closed.close()
}, 120_000)
afterAll(() => store.close())

/** Their answers follow from their addresses. */
const PURE_GETS = [
  '/v1/bends?radius=3m',
  '/v1/bends.csv?radius=3m',
  '/v1/overhangs?radius=3m&length=600&truckCentres=430&width=110',
  '/v1/vertical-curves?gradeIn=2&gradeOut=-1&length=1m',
  '/v1/turnouts?number=6',
  '/v1/catalogue/sections?',
  '/v1/catalogue/materials?',
  '/v1/rules?',
]
const GETS = [...PURE_GETS, '/livez?', '/readyz?', '/v1/shed?', '/v1/shed/reservations?']
/** What a project is drawn and printed as. */
const PRINTED = ['plan.svg', 'profile.svg', 'plan.dxf', 'plan.geojson', 'sheets.pdf']
const OF_PROJECTS = [
  '',
  '/revisions',
  '/revisions/1',
  '/estimate',
  '/bill.csv',
  '/bill',
  '/built',
  '/tables/elements.csv',
  '/workbook.xlsx',
  '/links',
  ...PRINTED.map((file) => `/${file}`),
]
const json = { name: 'x', plan: planWith() }

test('every documented status is really sent', async () => {
  const { ask, met } = asking(createApp({ store, workers: inThisThread }))
  const full = asking(createApp({ store, workers: failing('full') }))
  const tooLong = asking(createApp({ store, workers: failing('too-long') }))
  const busy = {
    ask: async (...asked: Parameters<typeof full.ask>) => [await full.ask(...asked), await tooLong.ask(...asked)],
  }
  const withoutDatabase = asking(createApp({ store: closed, workers: inThisThread }))
  const onFullDisk = asking(createApp({ store: fullDisk, workers: inThisThread }))
  const create = async () => JSON.parse((await ask('/v1/projects', { method: 'POST', json })).text) as Project
  const { id } = await create()
  const broken = await store.create({ name: 'x', notes: '', plan: {} })
  const project = `/v1/projects/${id}`

  for (const path of [...GETS, '/v1/projects?', ...OF_PROJECTS.map((rest) => `${project}${rest}?`)]) {
    await ask(path)
    await ask(`${path}&nonsense=1`)
    await ask(path, { headers: { Accept: 'image/png' } })
    if (/readyz|projects|shed/.test(path)) await withoutDatabase.ask(path)
  }
  for (const { name, example, searches } of CELLS) {
    const path = `/v1/cell/${name}?${example}`
    await ask(path)
    await ask(path, { headers: { 'If-None-Match': '*' } })
    await ask(path, { headers: { Accept: 'image/png' } })
    await ask(`${path}&nonsense=1`)
    if (searches) await busy.ask(path)
  }
  const tagged = [
    '',
    '/tables/bill.csv',
    '/workbook.xlsx',
    '/estimate',
    '/bill.csv',
    ...PRINTED.map((file) => `/${file}`),
  ].map((rest) => `${project}${rest}`)
  for (const path of [...tagged, '/v1/shed', ...PURE_GETS]) await ask(path, { headers: { 'If-None-Match': '*' } })
  for (const rest of OF_PROJECTS) await ask(`/v1/projects/${NOBODY}${rest}`)
  for (const rest of ['estimate', 'bill.csv', 'bill', 'tables/joints.json', 'workbook.xlsx', ...PRINTED])
    await ask(`/v1/projects/${broken.id}/${rest}`)

  const link = JSON.parse((await ask(`${project}/links`, { method: 'POST', json: { label: 'x' } })).text)
  const brokenLink = `/v1/linked/${'b'.repeat(43)}`
  await store.addLink(broken.id, 'x', tokenHash('b'.repeat(43))!)
  const linked = [link.workbook, link.tables[0], link.sheets]
  const brokenOnes = ['workbook.xlsx', 'tables/bill.csv', 'sheets.pdf'].map((rest) => `${brokenLink}/${rest}`)
  for (const path of [...linked, ...brokenOnes]) {
    await ask(path)
    await ask(`${path}?nonsense=1`)
    await ask(path, { headers: { Accept: 'image/png' } })
    await ask(path, { headers: { 'If-None-Match': '*' } })
    await ask(path.replace(/linked.[^/]+/, 'linked/none'))
    await withoutDatabase.ask(path)
    await busy.ask(path)
  }
  const revoke = { method: 'DELETE' }
  await ask(`${project}/links/${link.id}?nonsense=1`, revoke)
  await withoutDatabase.ask(`${project}/links/${link.id}`, revoke)
  for (let times = 0; times < 2; times++) await ask(`${project}/links/${link.id}`, revoke)
  await ask(`${project}/links?nonsense=1`, { method: 'POST', json: { label: 'x' } })
  await ask(`/v1/projects/${NOBODY}/links`, { method: 'POST', json: { label: 'x' } })
  await withoutDatabase.ask(`${project}/links`, { method: 'POST', json: { label: 'x' } })

  const bodies: [path: string, asked: Asked][] = [
    ['/v1/estimates', { method: 'POST' }],
    ['/v1/comparisons', { method: 'POST' }],
    ['/v1/tables/bends.json', { method: 'POST' }],
    ['/v1/workbook.xlsx', { method: 'POST' }],
    ['/v1/drawings/plan.svg', { method: 'POST' }],
    ['/v1/sheets', { method: 'POST' }],
    ['/v1/bends', { method: 'POST' }],
    ['/v1/bend-calibrations', { method: 'POST' }],
    ['/v1/bend-checks', { method: 'POST' }],
    ['/v1/cut-plans', { method: 'POST' }],
    ['/v1/fits', { method: 'POST' }],
    ['/v1/moves', { method: 'POST' }],
    ['/v1/setting-outs', { method: 'POST' }],
    ['/v1/figures', { method: 'POST' }],
    ['/v1/surveys', { method: 'POST' }],
    ['/v1/projects', { method: 'POST' }],
    [`${project}/links`, { method: 'POST' }],
    [project, { method: 'PUT', headers: { 'If-Match': '*' } }],
    ['/v1/shed', { method: 'PUT', headers: { 'If-Match': '*' } }],
  ]
  for (const [path, { method, headers }] of bodies) {
    const send = (body: string, more: Asked['headers'] = {}) =>
      ask(path, { method: method!, headers: { ...headers, ...JSON_TYPE, ...more }, body })
    await send('{')
    await send(`"${'x'.repeat(1024 * 1024)}"`)
    await send('[]')
    await send('{}', { 'Content-Type': 'text/plain' })
    await send('{}', { Accept: 'text/csv' })
  }
  await ask('/v1/estimates', { method: 'POST', json: planWith() })
  await ask('/v1/comparisons', { method: 'POST', json: example('loop-in-three-metals') })
  await ask('/v1/bends', { method: 'POST', json: example('bend-by-hand') })
  await ask('/v1/bend-calibrations', { method: 'POST', json: example('calibration-by-radii') })
  await ask('/v1/bend-checks', { method: 'POST', json: example('check-laid-curve') })
  await ask('/v1/setting-outs', { method: 'POST', json: example('curves-to-peg-out') })
  await ask('/v1/figures', { method: 'POST', json: example('passing-loop') })
  await ask('/v1/surveys', { method: 'POST', json: example('garden-survey') })
  await ask('/v1/cut-plans', { method: 'POST', json: example('six-runs-to-cut') })
  await ask('/v1/fits', { method: 'POST', json: example('connection-to-fit') })
  await ask('/v1/moves', { method: 'POST', json: example('siding-to-move') })
  for (const path of [
    '/v1/tables/bends.json',
    '/v1/tables/none.json',
    '/v1/workbook.xlsx',
    '/v1/drawings/plan.dxf',
    '/v1/drawings/none.svg',
    '/v1/sheets',
  ]) {
    await ask(path, { method: 'POST', json: planWith() })
    await ask(`${path}?nonsense=1`, { method: 'POST', json: planWith() })
    await busy.ask(path, { method: 'POST', json: planWith() })
  }
  for (const rest of ['tables/bill.csv', 'workbook.xlsx', 'estimate', 'bill', 'bill.csv', ...PRINTED])
    await busy.ask(`${project}/${rest}`)
  await busy.ask('/v1/estimates', { method: 'POST', json: planWith() })
  await busy.ask('/v1/comparisons', { method: 'POST', json: example('loop-in-three-metals') })
  await busy.ask('/v1/bend-checks', { method: 'POST', json: example('check-laid-curve') })
  for (const [path, name] of [
    ['/v1/bends', 'bend-by-hand'],
    ['/v1/bend-calibrations', 'calibration-by-radii'],
    ['/v1/setting-outs', 'curves-to-peg-out'],
    ['/v1/figures', 'passing-loop'],
    ['/v1/fits', 'connection-to-fit'],
    ['/v1/moves', 'siding-to-move'],
    ['/v1/surveys', 'garden-survey'],
  ] as const)
    await busy.ask(path, { method: 'POST', json: example(name) })
  await busy.ask('/v1/cut-plans', { method: 'POST', json: example('six-runs-to-cut') })

  await ask(project, { method: 'PUT', json, headers: { 'If-Match': '"1"' } })
  await withoutDatabase.ask('/v1/projects', { method: 'POST', json })
  for (const write of [{ method: 'PUT', json }, { method: 'DELETE' }]) {
    await ask(project, write)
    await ask(project, { ...write, headers: { 'If-Match': '"1"' } })
    await ask(project, { ...write, headers: { 'If-Match': '1' } })
    await ask(`/v1/projects/${NOBODY}`, { ...write, headers: { 'If-Match': '*' } })
    await withoutDatabase.ask(project, { ...write, headers: { 'If-Match': '*' } })
  }
  const once = { method: 'POST', json, headers: { 'Idempotency-Key': '"once"' } }
  const both = await Promise.all([ask('/v1/projects', once), ask('/v1/projects', once)])
  const { id: deleted } = JSON.parse(both.find(({ status }) => status === 201)!.text) as Project
  await ask(`/v1/projects/${deleted}`, { method: 'DELETE', headers: { 'If-Match': '*' } })
  await ask('/v1/projects', once)
  const again = { method: 'POST' }
  await ask(`/v1/projects/${deleted}/restore`, { ...again, headers: { Accept: 'image/png' } })
  expect((await ask(`/v1/projects/${deleted}/restore`, again)).status).toBe(200)
  await ask(`/v1/projects/${deleted}/restore?nonsense=1`, again)
  await ask(`/v1/projects/${NOBODY}/restore`, again)
  await withoutDatabase.ask(`/v1/projects/${deleted}/restore`, again)
  await ask(`/v1/projects/${deleted}`, { method: 'DELETE', headers: { 'If-Match': '*' } })
  const exported = await ask('/v1/export')
  await ask('/v1/export?nonsense=1')
  await withoutDatabase.ask('/v1/export')
  const lines = { method: 'POST', headers: { 'Content-Type': 'application/x-ndjson' }, body: exported.text }
  await ask('/v1/import', lines)
  await ask('/v1/import?dryRun=yes', lines)
  expect(JSON.parse((await ask('/v1/import?replace=1&dryRun=1', lines)).text)).toMatchObject({ replacedProjects: 2 })
  await ask('/v1/import?replace=1', { ...lines, body: 'nonsense' })
  await ask('/v1/import', { ...lines, headers: JSON_TYPE })
  await withoutDatabase.ask('/v1/import', lines)
  await onFullDisk.ask('/v1/import', lines)
  await onFullDisk.ask('/readyz')
  await ask('/v1/shed', { method: 'PUT', json: {} })
  for (const tag of ['*', '"1"', '1']) await ask('/v1/shed', { method: 'PUT', json: {}, headers: { 'If-Match': tag } })
  await withoutDatabase.ask('/v1/shed', { method: 'PUT', json: {}, headers: { 'If-Match': '*' } })
  const built = { method: 'POST' }
  for (const tag of ['1', '"1"', '"2"', '"2"'])
    await ask(`${project}/built`, { ...built, headers: { 'If-Match': tag } })
  await ask(`${project}/built?nonsense=1`, built)
  await ask(`${project}/built`, { ...built, headers: { Accept: 'image/png' } })
  for (const id of [NOBODY, broken.id]) await ask(`/v1/projects/${id}/built`, built)
  await withoutDatabase.ask(`${project}/built`, built)
  await ask(project, { method: 'DELETE', headers: { 'If-Match': '"2"' } })

  const documented = Object.values(committedDocument.paths)
    .flatMap((operations) => Object.values(operations))
    .flatMap(({ operationId, responses }) => Object.keys(responses).map((status) => `${operationId} ${status}`))
  expect(documented.length).toBeGreaterThan(70)
  expect(
    documented.filter(
      (line) => ![met, full.met, tooLong.met, withoutDatabase.met, onFullDisk.met].some((lines) => lines.has(line)),
    ),
  ).toEqual([])
})

describe('without a database', () => {
  test.each(['/readyz', '/v1/projects', `/v1/projects/${NOBODY}`])('%s tells when to try again', async (path) => {
    const answer = await asking(createApp({ store: closed, workers: inThisThread })).ask(path)
    expect(answer.status).toBe(503)
    expect(answer.headers.get('retry-after')).toMatch(/^[1-9]\d*$/)
  })

  test('the process is alive, and plans are worked out', async () => {
    const { ask } = asking(createApp({ store: closed, workers: inThisThread }))
    expect((await ask('/livez')).status).toBe(200)
    expect((await ask('/v1/estimates', { method: 'POST', json: planWith() })).status).toBe(200)
  })
})
