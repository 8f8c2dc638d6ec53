import { readXlsx } from 'hucre/xlsx'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { CELLS } from '../../src/api/endpoints/cells.ts'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { ARC, appWithoutStore, planWith, problemIn, TANGENT, trackOf } from '../api/asking.ts'
import { nestingFault, tagsOf } from '../page/markup.ts'
import { temporaryStore } from '../servers/databases.ts'
import { addressesIn, answersIn, formulasIn } from '../spreadsheets/guide.ts'

const BASE = 'http://railway.example:8081'
/** The names that the addresses below have. */
const NAMES = ['railway_box.local', 'railway.example', '192.168.1.7', 'shed', 'a"b', 'a&b', "a'b", 'a(b)', 'a;b']
const ACCESS = { allowedHosts: NAMES, accessKey: null, calculationOrigins: [] }
const app = appWithoutStore(ACCESS)
const guide = async (base = BASE) => (await app.request(`${base}/docs/spreadsheets`)).text()
const workbook = async (base = BASE) =>
  new Uint8Array(await (await app.request(`${base}/docs/spreadsheets/longchord.xlsx`)).arrayBuffer())

describe('the guide for spreadsheets', () => {
  let store: ProjectStore
  beforeAll(async () => {
    store = await temporaryStore()
  })
  afterAll(() => store.close())

  test('leads and points to nothing but what is there', async () => {
    const full = createApp({ store, workers: inThisThread, access: ACCESS })
    const json = { name: 'Pond line', plan: planWith({ tracks: [trackOf(TANGENT, ARC)] }) }
    const headers = { 'Content-Type': 'application/json' }
    const created = await full.request('/v1/projects', { method: 'POST', headers, body: JSON.stringify(json) })
    const { id } = (await created.json()) as { id: string }
    const links = `/v1/projects/${id}/links`
    const linked = await full.request(links, { method: 'POST', headers, body: JSON.stringify({ label: 'bench' }) })
    const { token } = (await linked.json()) as { token: string }
    const addresses = addressesIn(await guide(), BASE).map((address) => address.replace('TOKEN', token))
    expect(addresses.filter((address) => address.includes(token)).length).toBeGreaterThan(8)
    expect(addresses.length).toBeGreaterThan(20)
    const statuses = await Promise.all(
      addresses.map(async (address) => [address, (await full.request(address)).status]),
    )
    expect(statuses.filter(([, status]) => status !== 200)).toEqual([])
  })

  test('prints what each cell really answers, and leaves out none', async () => {
    const printed = answersIn(await guide())
    expect(printed.map(({ address }) => new URL(address).pathname)).toEqual(CELLS.map(({ name }) => `/v1/cell/${name}`))
    for (const { address, shows } of printed) {
      expect(address.startsWith(BASE)).toBe(true)
      expect(await (await app.request(address)).text()).toBe(shows)
      expect(shows).toMatch(/^-?\d+(\.\d+)?$/)
    }
  })

  test('names every parameter of every cell', async () => {
    const markup = await guide()
    const document = (await (await app.request('/openapi.json')).json()) as {
      paths: Record<string, { get: { parameters: { name: string; in: string }[] } }>
    }
    for (const { name } of CELLS) {
      const article = markup.split(`id="cell-${name}"`)[1]!.split('</article>')[0]!
      const parameters = document.paths[`/v1/cell/${name}`]!.get.parameters.filter(({ in: place }) => place === 'query')
      expect(parameters.length).toBeGreaterThan(3)
      for (const parameter of parameters.filter(({ name }) => name !== 'refresh' && name !== 'errors'))
        expect([name, article.includes(`<code>${parameter.name}</code>`)]).toEqual([name, true])
    }
  })

  test('writes formulas that Excel takes: no text in them is over 255 characters, and they differ in separators alone', async () => {
    const formulas = formulasIn(await guide())
    expect(formulas.length).toBeGreaterThan(30)
    const of = (separator: string) => formulas.filter((formula) => formula.separator === separator)
    expect(of(',')).toHaveLength(of(';').length)
    for (const { text } of formulas)
      for (const [, literal] of text.matchAll(/"([^"]*)"/g)) expect(literal!.length).toBeLessThanOrEqual(255)
    const bare = (text: string) => text.replaceAll(/"[^"]*"/g, '""')
    for (const [index, { text }] of of(';').entries())
      expect(bare(text).replaceAll(';', ',')).toBe(bare(of(',')[index]!.text))
  })

  test('is sound, has no script, and every place on it that it leads to', async () => {
    const markup = await guide()
    expect(nestingFault(markup)).toBeNull()
    const tags = tagsOf(markup)
    expect(tags.filter(({ name }) => name === 'script')).toEqual([])
    const ids = tags.flatMap(({ attributes }) => attributes.get('id') ?? [])
    expect(new Set(ids).size).toBe(ids.length)
    const inside = tags.flatMap(({ attributes }) => attributes.get('href') ?? []).filter((href) => href.startsWith('#'))
    expect(inside.length).toBeGreaterThan(8)
    expect(inside.filter((href) => !ids.includes(href.slice(1)))).toEqual([])
  })

  test('is led to from the home page, the interface and the results', async () => {
    const full = createApp({ store, workers: inThisThread, access: ACCESS })
    for (const path of ['/', '/docs', '/demo'])
      expect([path, (await (await full.request(path)).text()).includes('docs/spreadsheets"')]).toEqual([path, true])
  })
})

describe('the address of the service in it', () => {
  test.each(['http://127.0.0.1:8080', 'http://localhost', 'http://railway_box.local:81', 'http://[::1]:8080'])(
    'is that of the request: %s',
    async (base) => {
      expect(await guide(base)).toContain(`<code class="typed">${base}</code>`)
      const { sheets } = await readXlsx(await workbook(base))
      expect(sheets[0]!.rows[3]![1]).toBe(base)
    },
  )

  test('is secure where a proxy says so', async () => {
    const headers = { 'X-Forwarded-Proto': 'https' }
    const answer = await app.request(`${BASE}/docs/spreadsheets`, { headers })
    expect(await answer.text()).toContain('<code class="typed">https://railway.example:8081</code>')
  })

  test.each(['http://a"b', 'http://a&b', "http://a'b", 'http://a(b)', 'http://a;b'])(
    'is refused as %s',
    async (base) => {
      for (const path of ['/docs/spreadsheets', '/docs/spreadsheets/longchord.xlsx']) {
        const answer = await app.request(`${base}${path}`)
        expect(answer.status).toBe(400)
        const text = await answer.text()
        expect(problemIn({ status: 400, headers: answer.headers, text }).detail).toContain('Host')
        expect(text).not.toContain(new URL(base).host)
      }
    },
  )

  test.each([
    ['http://127.0.0.1:8080', 'this computer'],
    ['http://192.168.1.7:8080', 'this network'],
    ['http://shed', 'this network'],
  ])('says who cannot see %s', async (base, seen) => {
    expect(await guide(base)).toContain(`it can be reached only from ${seen}`)
  })

  test('says nothing of the kind of an address on the internet', async () => {
    expect(await guide()).not.toContain('can be seen from')
  })
})

describe('the ready workbook', () => {
  test('is a file to keep, and the same bytes for the same address', async () => {
    const answer = await app.request(`${BASE}/docs/spreadsheets/longchord.xlsx`)
    expect(answer.headers.get('content-type')).toBe('application/vnd.openxmlformats-officedocument.spreadsheetml.sheet')
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="longchord.xlsx"')
    const first = await workbook()
    // A zip's clock ticks every two seconds.
    await new Promise((resolve) => setTimeout(resolve, 2_100))
    expect(await workbook()).toEqual(first)
  })

  test('has the address in one cell alone, and formulas that Excel takes', async () => {
    const { sheets } = await readXlsx(await workbook())
    expect(sheets.map(({ name }) => name)).toEqual(['Start', 'One curve', 'Track'])
    const formulas = sheets.flatMap(({ cells }) => [...(cells?.values() ?? [])].flatMap(({ formula }) => formula ?? []))
    expect(formulas.length).toBeGreaterThan(70)
    for (const formula of formulas) {
      expect(formula.length).toBeLessThanOrEqual(8_192)
      expect(formula).not.toContain('railway.example')
      for (const [, literal] of formula.matchAll(/"([^"]*)"/g)) expect(literal!.length).toBeLessThanOrEqual(255)
      // What came after the file format has a prefix in the file.
      expect(formula).not.toMatch(/(?<!_xlfn\.)\b(WEBSERVICE|NUMBERVALUE|ENCODEURL)\b/)
    }
    const texts = sheets.flatMap(({ rows }) => rows.flat()).filter((value) => String(value).includes('railway.example'))
    expect(texts).toEqual([BASE])
  })
})
