import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { pageNotFound } from '../../src/page/pages/pages.ts'
import { openStore } from '../../src/projects/open-store.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { windingPlan } from '../benchmarks/plans.ts'
import { recordedLog } from '../log/recorded.ts'
import { fieldsOf, tagsOf, textOf } from './markup.ts'
import { unsoundness } from './soundness.ts'

let folder: string
let store: ProjectStore
let page: Hono

const pageOver = (over: ProjectStore) => createApp({ store: over, workers: inThisThread })

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'longchord-page-'))
  store = await openStore({ databaseUrl: null, dataDir: join(folder, 'data') }, { onProgress: () => {} })
  page = pageOver(store)
}, 60_000)

afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true })
})

interface Answer {
  readonly status: number
  readonly headers: Headers
  readonly markup: string
  readonly fields: Map<string, string>
}

async function answered(response: Response): Promise<Answer> {
  const markup = await response.text()
  const isPage = response.headers.get('content-type')?.startsWith('text/html') === true
  if (isPage) {
    expect(unsoundness(markup)).toEqual([])
    expect(response.headers.get('content-security-policy')).toBe(
      "default-src 'none'; script-src 'self'; connect-src 'self'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    )
  }
  return { status: response.status, headers: response.headers, markup, fields: isPage ? fieldsOf(markup) : new Map() }
}

const get = async (path: string) => answered(await page.request(path))

/** A form sent by the page itself; `change` is what was typed and which button was pressed. */
async function send(path: string, fields: Map<string, string>, change: Record<string, string>, headers = OWN) {
  const body = new URLSearchParams([...new Map([...fields, ...Object.entries(change)])]).toString()
  return answered(await page.request(path, { method: 'POST', headers: { ...FORM, ...headers }, body }))
}

const FORM = { 'Content-Type': 'application/x-www-form-urlencoded' }
const OWN: Record<string, string> = { 'Sec-Fetch-Site': 'same-origin' }

/** Saves the demo plan and answers where it went. */
async function savedDemo(name: string): Promise<string> {
  const { fields } = await get('/demo?edit')
  const answer = await send('/', fields, { name, do: 'save' })
  expect(answer.status).toBe(303)
  return answer.headers.get('location')!
}

const idIn = (address: string) => address.split('/')[2]!

describe('the start page', () => {
  test('says what it is for, leads to the demo, lists what is saved, and starts a plan with six fields', async () => {
    const { status, markup, fields } = await get('/')
    expect(status).toBe(200)
    expect(markup).toContain('href="/demo"')
    expect([...fields]).toEqual([
      ['section', '250'],
      ['material', 'brass'],
      ['stick', ''],
      ['curve', ''],
    ])
    expect(markup.match(/name="curve"/g)).toHaveLength(3)
    const address = await savedDemo('A plan <to> find')
    expect((await get('/')).markup).toContain(`<a href="${address}">A plan &lt;to&gt; find</a>`)
  })

  test('lists twenty plans and leads on to the older ones', async () => {
    for (let n = 0; n < 21; n++) await store.create({ name: `number ${n}`, notes: '', plan: DEMO_PLAN })
    const first = await get('/')
    expect(first.markup.match(/number \d+/g)).toHaveLength(20)
    const older = tagsOf(first.markup)
      .find(({ text }) => text === 'Older plans')!
      .attributes.get('href')!
    expect(textOf((await get(older.replace('#saved', ''))).markup)).toContain('number 0')
    expect((await get('/?after=nonsense')).status).toBe(200)
  })
})

test('the style sheet is one file that may be kept for ever', async () => {
  const { markup } = await get('/')
  const address = tagsOf(markup)
    .find(({ attributes }) => attributes.get('rel') === 'stylesheet')!
    .attributes.get('href')!
  const { status, headers, markup: sheet } = await get(address)
  expect(status).toBe(200)
  expect(headers.get('content-type')).toBe('text/css; charset=utf-8')
  expect(headers.get('cache-control')).toContain('immutable')
  expect(sheet).not.toMatch(/url\(|@import/)
})

describe('the demo plan', () => {
  test('is worked out at once, and the form holds it', async () => {
    const { status, markup, fields } = await get('/demo?edit')
    expect(status).toBe(200)
    for (const part of ['Plan to scale', 'Findings', 'Track dimensions']) expect(textOf(markup)).toContain(part)
    expect(fields.get('tracks.1.elements.6.across')).toBe('18 ft')
  })

  test('is kept letter for letter when it is saved unchanged', async () => {
    const address = await savedDemo('')
    const project = await store.get(idIn(address))
    expect(project?.plan).toEqual(DEMO_PLAN)
    expect(project?.name).toBe(DEMO_PLAN.title)
  })

  test('is shown in the units that are asked for, and these survive the form', async () => {
    const feet = await get('/demo?show=feet')
    expect(feet.fields.get('show')).toBe('feet')
    expect(textOf(feet.markup)).toContain('R 9 ft')
    expect(textOf(feet.markup)).not.toContain('R 2743 mm')
    const metric = await send('/', feet.fields, { show: 'metric', do: 'work' })
    expect(textOf(metric.markup)).toContain('R 2743 mm')
    expect(textOf(metric.markup)).not.toContain('R 2743 mm (9 ft)')
  })
})

describe('the check of a bend', () => {
  test('is a page of its own that needs nothing but its address', async () => {
    const blank = await get('/check')
    expect(blank.status).toBe(200)
    expect(blank.fields.get('readingsIn')).toBe('mm')
    const answer = await get('/check?chord=500&readings=13.1%0A14.5+-&across=2400&acrossIs=radius&show=metric')
    expect(answer.status).toBe(200)
    expect(textOf(answer.markup)).toContain('1 station of 2 off target')
    expect(answer.fields.get('readings')).toBe('13.1\n14.5 -')
    expect(answer.fields.get('show')).toBe('metric')
    const faulty = await get('/check?chord=<b>&readings=x')
    expect(faulty.status).toBe(422)
    expect(faulty.fields.get('chord')).toBe('<b>')
  })

  test('is led to from every page, and from the card of each bend', async () => {
    const { markup } = await get('/demo/bench')
    const links = tagsOf(markup).flatMap(({ attributes }) => attributes.get('href') ?? [])
    expect(links).toContain('/check')
    // Inside of the head of the inner rail of the loop: half of 7 ft, less half the gauge and the head of 0.112 in.
    const card = links.find((link) => link.startsWith('/check?') && link.includes('1041.46'))!
    const { fields } = await get(card)
    expect(Number(fields.get('chord'))).toBeGreaterThan(100)
    expect(fields.get('across')).toBe('1041.46')
  })
})

describe('the form', () => {
  test('comes back with everything typed and every fault at its field', async () => {
    const { fields } = await get('/new')
    const typed = {
      title: 'Half <b>done</b>',
      gauge: '45 parsec',
      notes: 'two\r\nlines & more',
      name: ' mine ',
      'tracks.0.elements.0.kind': 'arc',
      'tracks.0.elements.0.across': '18 f',
      'tracks.0.elements.0.label': '"quoted" <script>',
      'tracks.0.elements.4.kind': 'tangent',
      'tracks.0.elements.4.length': '6 ft',
    }
    const answer = await send('/', fields, { ...typed, do: 'save' })
    expect(answer.status).toBe(422)
    const kept = answer.fields
    for (const key of ['title', 'gauge', 'tracks.0.elements.0.across', 'tracks.0.elements.0.label'] as const)
      expect(kept.get(key)).toBe(typed[key])
    expect(kept.get('name')).toBe('mine')
    expect(kept.get('notes')).toBe('two\nlines & more')
    // The blank rows between are gone.
    expect(kept.get('tracks.0.elements.1.length')).toBe('6 ft')
    const jumps = tagsOf(answer.markup).flatMap(({ attributes }) => attributes.get('href') ?? [])
    for (const place of ['gauge', 'tracks.0.elements.0.across', 'tracks.0.elements.0.turn'])
      expect(jumps).toContain(`#${place}`)
  })

  test('gains and loses rows and tracks, and keeps what is typed', async () => {
    const { fields } = await get('/demo?edit')
    const more = await send('/', fields, { title: 'changed', do: 'insert tracks.0.elements.0' })
    expect(more.status).toBe(200)
    expect(more.fields.get('title')).toBe('changed')
    expect(more.fields.get('tracks.0.elements.0.kind')).toBe('')
    expect(more.fields.get('tracks.0.elements.1.length')).toBe('5 ft')
    const less = await send('/', more.fields, { do: 'remove tracks.0' })
    expect(less.fields.get('tracks.0.name')).toBe('orchard line')
    expect(less.fields.has('tracks.5.name')).toBe(false)
    const third = await send('/', less.fields, { do: 'add tracks' })
    expect(third.fields.get('tracks.5.name')).toBe('')
  })

  test('without a name cannot be saved, and says so beside the field', async () => {
    const { fields } = await get('/demo?edit')
    const answer = await send('/', fields, { title: ' ', name: ' ', do: 'save' })
    expect(answer.status).toBe(422)
    expect(textOf(answer.markup)).toContain('The plan needs a name before it can be saved')
    const long = await send('/', fields, { name: 'x'.repeat(201), notes: 'y'.repeat(10_001), do: 'save' })
    expect(textOf(long.markup)).toContain('2 problems to fix')
  })

  test('names, remarks and notes are text wherever they are shown', async () => {
    const evil = '"><script>alert(1)</script><img src=x onerror=alert(1)>'
    const { fields } = await get('/demo?edit')
    const change = {
      title: evil,
      name: evil,
      notes: `</textarea>${evil}`,
      'tracks.4.name': evil,
      'tracks.4.label': evil,
      'tracks.4.elements.2.label': evil,
    }
    const saved = await send('/', fields, { ...change, do: 'save' })
    const address = saved.headers.get('location')!
    for (const path of [address, `${address}/revisions`, `${address}/delete`, '/']) {
      const { markup } = await get(path)
      expect(tagsOf(markup).filter(({ name }) => name === 'img')).toEqual([])
      // The page's own, which `unsoundness` knows.
      expect(tagsOf(markup).filter(({ name, kind }) => name === 'script' && kind !== 'close')).toHaveLength(1)
      expect(textOf(markup)).toContain('<script>alert(1)</script>')
    }
    expect((await get(address)).fields.get('notes')).toBe(change.notes)
  })

  test('a plan of two thousand elements is answered, and worked out again from its form', async () => {
    const project = await store.create({ name: 'long', notes: '', plan: windingPlan(2000) })
    const { status, markup, fields } = await get(`/plans/${project.id}`)
    expect(status).toBe(200)
    expect(markup.length).toBeLessThan(8_000_000)
    expect((await send(`/plans/${project.id}`, fields, { do: 'work' })).status).toBe(200)
  })
})

describe('a saved plan', () => {
  test('is changed and saved as a new revision; the old one can be opened', async () => {
    const address = await savedDemo('One')
    const opened = await get(`${address}?edit`)
    expect(opened.fields.get('revision')).toBe('1')
    const saved = await send(address, opened.fields, {
      name: 'Two',
      notes: 'steeper',
      'standards.maximumGradePct': '3',
      do: 'save',
    })
    expect([saved.status, saved.headers.get('location')]).toEqual([303, address])
    const again = await get(address)
    expect(textOf(again.markup)).toContain('Revision 2, saved')
    expect(again.fields.get('notes')).toBe('steeper')
    const list = await get(`${address}/revisions`)
    expect(textOf(list.markup)).toContain('Revision 1: One')
    const first = await get(`${address}/revisions/1?edit`)
    expect(textOf(first.markup)).toContain('This is revision 1 of 2')
    expect(first.fields.get('standards.maximumGradePct')).toBe('2')
    const restored = await send(address, first.fields, { do: 'save' })
    expect(restored.status).toBe(303)
    expect((await store.get(idIn(address)))?.revision).toBe(3)
  })

  test('that somebody else saved in between is not overwritten, and nothing typed is lost', async () => {
    const address = await savedDemo('Shared')
    const id = idIn(address)
    const mine = (await get(`${address}?edit`)).fields
    await store.replace(id, { name: 'Theirs', notes: '', plan: DEMO_PLAN }, [1])

    const refused = await send(address, mine, { 'tracks.2.elements.2.length': '9 ft', notes: 'mine', do: 'save' })
    expect(refused.status).toBe(409)
    expect(textOf(refused.markup)).toContain('revision 2, “Theirs”')
    expect(textOf(refused.markup)).toContain('track 3, element 3, length: theirs “3 ft”, yours “9 ft”')
    expect(refused.fields.get('tracks.2.elements.2.length')).toBe('9 ft')
    expect(refused.fields.get('notes')).toBe('mine')
    expect((await store.get(id))?.name).toBe('Theirs')

    const aside = await send(address, refused.fields, { name: 'Mine', do: 'save-new' })
    expect(aside.headers.get('location')).not.toBe(address)
    expect((await store.get(idIn(aside.headers.get('location')!)))?.notes).toBe('mine')

    await store.replace(id, { name: 'Theirs again', notes: '', plan: DEMO_PLAN }, [2])
    expect((await send(address, refused.fields, { do: 'save over 2' })).status).toBe(409)
    const over = await send(address, refused.fields, { name: 'Mine after all', do: 'save over 3' })
    expect(over.status).toBe(303)
    expect((await store.get(id))?.name).toBe('Mine after all')
    expect((await store.revision(id, 3))?.name).toBe('Theirs again')
  })

  test('that was deleted in between can be saved as a new one', async () => {
    const address = await savedDemo('Short-lived')
    const { fields } = await get(address)
    await store.remove(idIn(address), 'any')
    const refused = await send(address, fields, { do: 'save' })
    expect(refused.status).toBe(409)
    expect(textOf(refused.markup)).toContain('This plan was deleted while you were editing it')
    const aside = await send(address, refused.fields, { do: 'save-new' })
    expect((await get(aside.headers.get('location')!)).status).toBe(200)
  })

  test('is deleted after a second question, unless it changed meanwhile', async () => {
    const address = await savedDemo('To go')
    const question = await get(`${address}/delete`)
    expect(textOf(question.markup)).toContain('Delete “To go”?')
    await store.replace(idIn(address), { name: 'Still needed', notes: '', plan: DEMO_PLAN }, 'any')
    const refused = await send(`${address}/delete`, question.fields, {})
    expect(refused.status).toBe(409)
    expect(textOf(refused.markup)).toContain('Still needed')
    const gone = await send(`${address}/delete`, refused.fields, {})
    expect([gone.status, gone.headers.get('location')]).toEqual([303, '/deleted'])
    expect((await get(address)).status).toBe(404)
    expect((await send(`${address}/delete`, refused.fields, {})).status).toBe(404)
  })

  test('that this version cannot work out is opened with what is wrong', async () => {
    const project = await store.create({ name: 'From elsewhere', notes: '', plan: { ...DEMO_PLAN, gauge: 'wide' } })
    const { status, markup, fields } = await get(`/plans/${project.id}`)
    expect(status).toBe(200)
    expect(fields.get('gauge')).toBe('wide')
    expect(textOf(markup)).toContain('1 problem to fix')
  })
})

describe('what is not there', () => {
  const none = '01890a5d-ac96-774b-bcce-b302099a8057'
  test.each([
    `/plans/${none}`,
    '/plans/x',
    `/plans/${none}/revisions`,
    `/plans/${none}/revisions/1`,
    `/plans/${none}/delete`,
  ])('%s is told in words', async (path) => {
    const { status, markup } = await get(path)
    expect(status).toBe(404)
    expect(textOf(markup)).toContain('Plan not found')
  })

  test('nor is a revision that never was', async () => {
    const address = await savedDemo('Young')
    for (const number of ['2', '0', '-1', '1.5', 'x', '99999999999999'])
      expect((await get(`${address}/revisions/${number}`)).status).toBe(404)
  })

  test('an address of no kind has a page of its own', async () => {
    const { status, markup } = await answered(pageNotFound())
    expect(status).toBe(404)
    expect(textOf(markup)).toContain('Page not found')
  })
})

describe('forms from elsewhere', () => {
  test.each<[string, Record<string, string>]>([
    ['another site', { 'Sec-Fetch-Site': 'cross-site', Origin: 'https://elsewhere.example' }],
    ['a neighbour of the site', { 'Sec-Fetch-Site': 'same-site', Origin: 'http://other.localhost' }],
    ['another site in an old browser', { Origin: 'https://elsewhere.example' }],
    ['nowhere', { Origin: 'null' }],
    ['a client that does not say', {}],
  ])('of %s are refused and change nothing', async (_, headers) => {
    const address = await savedDemo('Guarded')
    const { fields } = await get(address)
    for (const path of ['/', address, `${address}/delete`]) {
      const answer = await send(path, fields, { name: 'Stolen', do: 'save' }, headers)
      expect(answer.status).toBe(403)
      expect(textOf(answer.markup)).toContain('Request from another site')
    }
    expect((await store.get(idIn(address)))?.revision).toBe(1)
  })

  test('of an old browser on the page itself are taken', async () => {
    const { fields } = await get('/demo?edit')
    expect((await send('/', fields, { do: 'work' }, { Origin: 'http://localhost' })).status).toBe(200)
  })

  test('that are no forms, or too large, are refused in words', async () => {
    const json = await page.request('/', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', ...OWN },
      body: '{}',
    })
    expect((await answered(json)).status).toBe(415)
    const large = await send('/', new Map([['notes', 'x'.repeat(9_000_000)]]), {})
    expect(large.status).toBe(413)
  })
})

test('when the database fails, the page says so in words and tells nothing of it', async () => {
  const { log, from } = recordedLog()
  for (const [error, status] of [
    [new StoreError('unavailable', 'secret'), 503],
    [new Error('secret'), 500],
  ] as const) {
    const failing: ProjectStore = { ...store, list: () => Promise.reject(error), create: () => Promise.reject(error) }
    page = createApp({ store: failing, workers: inThisThread, log })
    const start = await get('/')
    const saved = await send('/', (await get('/demo?edit')).fields, { do: 'save' })
    for (const answer of [start, saved]) {
      expect(answer.status).toBe(status)
      expect(answer.markup).not.toContain('secret')
      expect(answer.markup).toContain(answer.headers.get('x-request-id'))
      expect(answer.headers.get('retry-after')).toBe(status === 503 ? '2' : null)
    }
  }
  page = pageOver(store)
  expect(from('warn').map(({ level }) => level)).toEqual(['warn', 'warn', 'error', 'error'])
})

test('answers are packed for browsers that can unpack them', async () => {
  const plain = await page.request('/demo')
  const packed = await page.request('/demo', { headers: { 'Accept-Encoding': 'gzip' } })
  expect(packed.headers.get('content-encoding')).toBe('gzip')
  const size = async (response: Response) => (await response.arrayBuffer()).byteLength
  expect(await size(packed)).toBeLessThan((await size(plain)) / 4)
})
