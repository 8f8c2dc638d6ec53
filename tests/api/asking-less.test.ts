import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { EstimatePart } from '../../src/estimate/answer.ts'
import { ESTIMATE_PARTS } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { ARC, asking, committedDocument, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

let store: ProjectStore
let app: ReturnType<typeof createApp>
let ask: ReturnType<typeof asking>['ask']
let project: string

const PLAN = example('line-with-bed-and-feeders')

beforeAll(async () => {
  store = await temporaryStore()
  app = createApp({ store, workers: inThisThread })
  ask = asking(app).ask
  const made = await ask('/v1/projects', { method: 'POST', json: { name: 'Pond', plan: PLAN } })
  project = `/v1/projects/${JSON.parse(made.text).id}`
})
afterAll(() => store.close())

describe('fields', () => {
  const post = (query: string, json: unknown = PLAN) => ask(`/v1/estimates${query}`, { method: 'POST', json })

  test('gives each part alone as it is in the whole estimate', async () => {
    const whole = JSON.parse((await post('')).text)
    // A plan without cars or pegs has nothing to say of them; asked for alone they are an empty answer.
    const onlyWithCars = [
      'standing',
      'foulingPoints',
      'overCrossings',
      'trains',
      'pegs',
      'pegOuts',
      'envelope',
      'tieLevels',
    ]
    expect(Object.keys(whole)).toEqual(ESTIMATE_PARTS.filter((part) => !onlyWithCars.includes(part)))
    // Every tie is a long list: it is there only where it is asked for.
    const { tieLevels } = JSON.parse((await post('?fields=tieLevels')).text)
    expect(tieLevels.ties.length).toBeGreaterThan(10)
    for (const part of ESTIMATE_PARTS.filter((each) => each !== 'tieLevels')) {
      const { text } = await post(`?fields=${part}`)
      expect(text).toBe(JSON.stringify({ [part]: whole[part] }))
      expect((await ask(`${project}/estimate?fields=${part}`)).text).toBe(text)
    }
    const some = JSON.parse((await post('?fields=findings,%20bill&refresh=1')).text)
    expect(some).toEqual({ bill: whole.bill, findings: whole.findings })
    expect(JSON.parse((await ask(`${project}/estimate`)).text)).toEqual(whole)
  })

  test('of a track in rows as well', async () => {
    const answer = await ask('/v1/estimates?section=250&material=brass&fields=bill', {
      method: 'POST',
      headers: { 'Content-Type': 'text/csv' },
      body: 'kind,length\ntangent,600\n',
    })
    expect(Object.keys(JSON.parse(answer.text))).toEqual(['bill'])
  })

  test.each([
    ['?fields=bil', 'did you mean "bill"'],
    ['?fields=bill,', 'use one of title, rail'],
    ['?fields=', 'use one of title, rail'],
    ['?fields=bill.lines', 'use one of'],
    ['?fields=bill&fields=findings', 'commas'],
    [`?fields=${'bill,'.repeat(200)}bill`, ''],
  ])('is refused with what was meant: %s', async (query, hint) => {
    const answer = await post(query)
    expect(answer.status).toBe(400)
    expect(placesIn(answer)).toEqual(['fields'])
    expect(problemIn(answer).errors[0]!.hint ?? '').toContain(hint)
  })

  test('changes nothing about what is refused', async () => {
    const short = planWith({ supplies: { sticks: [{ length: '5 ft', onHand: 1, buyable: false }] } })
    for (const plan of [planWith({ tracks: [] }), short])
      expect(problemIn(await post('?fields=assumptions', plan)).errors).toEqual(problemIn(await post('', plan)).errors)
  })

  test('saves the bending that no part shows', () => {
    const read = readPlan(planWith({ tracks: [trackOf(TANGENT, ARC)] }))
    if (!read.ok) throw new Error('the plan has faults')
    const of = (...parts: EstimatePart[]) => {
      const made = estimate(read.plan, { parts })
      return made.ok ? made.estimate : null
    }
    expect(of('bill')!.bends).toEqual([])
    expect(of('bill')!.bill).toEqual(of('findings', 'bill', 'bends')!.bill)
    expect(of('bends')!.bends.length).toBeGreaterThan(0)
  })
})

describe('an answer that the client has', () => {
  const PURE = [
    '/v1/bends?diameter=20ft',
    '/v1/bends.csv?diameter=20ft',
    '/v1/catalogue/sections',
    '/v1/catalogue/materials',
    '/v1/rules',
    '/openapi.json',
    '/v1/cell/mid-ordinate?diameter=20ft&chord=500',
  ]

  test('is not sent again', async () => {
    const ofProject = ['/estimate', '/estimate?fields=bill', '/bill.csv'].map((path) => `${project}${path}`)
    const tags = new Set<string>()
    for (const path of [...PURE, ...ofProject]) {
      const first = await ask(path)
      expect(first.status).toBe(200)
      const tag = first.headers.get('etag')!
      expect(tag).toMatch(/^"[\w-]{22,27}"$/)
      tags.add(tag)
      for (const sent of [tag, `W/${tag}`, `"other", ${tag}`, '*']) {
        const again = await ask(path, { headers: { 'If-None-Match': sent } })
        expect([again.status, again.text, again.headers.get('etag')], path).toEqual([304, '', tag])
      }
      expect((await ask(path, { headers: { 'If-None-Match': '"other"' } })).status).toBe(200)
    }
    expect(tags.size).toBe(PURE.length + ofProject.length)
  })

  test('is sent again when the plan or what is reserved for it has changed', async () => {
    const plan = planWith()
    const made = await ask('/v1/projects', { method: 'POST', json: { name: 'Bed', plan } })
    const address = `/v1/projects/${JSON.parse(made.text).id}`
    const tags: (string | null)[] = []
    const look = async () => {
      const { status, headers } = await ask(`${address}/estimate`, { headers: { 'If-None-Match': tags.join(', ') } })
      tags.push(headers.get('etag'))
      return status
    }
    expect(await look()).toBe(200)
    const shed = await ask('/v1/shed')
    const { stock } = JSON.parse(shed.text)
    const sticks = [{ section: '250', material: 'brass', lengthMm: 1524, count: 200 }]
    const changed = await ask('/v1/shed', {
      method: 'PUT',
      headers: { 'If-Match': shed.headers.get('etag')! },
      json: { ...stock, sticks },
    })
    expect(changed.status).toBe(200)
    expect(await look()).toBe(200)
    const put = (json: unknown) => ask(address, { method: 'PUT', headers: { 'If-Match': '*' }, json })
    expect((await put({ name: 'Bed', plan: planWith({ tracks: [trackOf(ARC)] }) })).status).toBe(200)
    expect(await look()).toBe(200)
    expect(new Set(tags).size).toBe(3)
    expect(await look()).toBe(304)
  })
})

describe('an answer', () => {
  const get = (path: string, accepts: string | null, headers: Record<string, string> = {}) =>
    app.request(path, { headers: { ...(accepts !== null && { 'Accept-Encoding': accepts }), ...headers } })

  test('is compressed for who accepts it, with the same content', async () => {
    for (const path of ['/openapi.json', `${project}/estimate`, '/', '/docs/plans']) {
      const plain = await get(path, null)
      const packed = await get(path, 'br, gzip')
      const bytes = Buffer.from(await packed.arrayBuffer())
      expect(packed.headers.get('content-encoding')).toBe('gzip')
      const text = await plain.text()
      expect(gunzipSync(bytes).toString()).toBe(text)
      expect(bytes.length).toBeLessThan(Buffer.byteLength(text) / 2)
      for (const each of [plain, packed]) {
        expect(each.headers.get('vary')).toContain('Accept-Encoding')
        expect(each.headers.get('content-type')).toBe(plain.headers.get('content-type'))
      }
      const tag = plain.headers.get('etag')
      if (tag !== null) {
        expect(packed.headers.get('etag')).toBe(`W/${tag}`)
        expect((await get(path, 'gzip', { 'If-None-Match': `W/${tag}` })).status).toBe(304)
      }
    }
  })

  test.each(['gzip;q=0', 'br', 'identity', '*;q=0', ''])('is not compressed for who says %s', async (accepts) => {
    expect((await get('/openapi.json', accepts)).headers.get('content-encoding')).toBeNull()
  })

  test('is not compressed when it is small, is so already, or has the tag of a revision', async () => {
    for (const path of ['/livez', `${project}/workbook.xlsx`, project, '/v1/cell/ties?length=60ft']) {
      const answer = await get(path, 'gzip')
      expect(answer.status).toBe(200)
      expect(answer.headers.get('content-encoding'), path).toBeNull()
    }
    expect((await get(project, 'gzip')).headers.get('etag')).toBe('"1"')
    const head = await app.request('/openapi.json', { method: 'HEAD', headers: { 'Accept-Encoding': 'gzip' } })
    expect([head.status, head.headers.get('content-encoding'), await head.text()]).toEqual([200, null, ''])
  })

  test('of an error is compressed as well when it is long', async () => {
    const plan = planWith({ tracks: [trackOf(...Array.from({ length: 40 }, () => ({ kind: 'tangent' })))] })
    const answer = await app.request('/v1/estimates', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'Accept-Encoding': 'gzip' },
      body: JSON.stringify(plan),
    })
    expect([answer.status, answer.headers.get('content-encoding')]).toEqual([422, 'gzip'])
    expect(JSON.parse(gunzipSync(Buffer.from(await answer.arrayBuffer())).toString()).errors).toHaveLength(40)
  })

  test('documents its tag and its parts', () => {
    const { get: estimateGet } = committedDocument.paths['/v1/projects/{id}/estimate']!
    expect(Object.keys(estimateGet!.responses)).toContain('304')
  })
})
