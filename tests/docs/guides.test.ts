import { readdirSync } from 'node:fs'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { GUIDES } from '../../src/docs/guides.ts'
import { guideSource } from '../../src/docs/shipped.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { serve } from '../../src/serving.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { example } from '../api/asking.ts'
import { tagsOf, textOf } from '../page/markup.ts'
import { unsoundness } from '../page/soundness.ts'
import { temporaryStore } from '../servers/databases.ts'
import { type Command, commandsIn, terminal } from './commands.ts'

/** The day on which the guides were written. */
const clock = () => new Date('2026-05-31T12:00:00Z')

/** The names that the addresses below have. */
const NAMED = { allowedHosts: ['railway_box.local', 'a"b'], accessKey: null, calculationOrigins: [] }

let store: ProjectStore
let app: Hono

beforeAll(async () => {
  store = await temporaryStore()
  app = createApp({ store, workers: inThisThread, clock, access: NAMED })
})
afterAll(() => store.close())

const written = GUIDES.filter(({ written }) => written)
const markupOf = async (path: string, base = '') => (await app.request(`${base}${path}`)).text()
const hrefsIn = (markup: string) => tagsOf(markup).flatMap(({ attributes }) => attributes.get('href') ?? [])

describe('the list of guides', () => {
  test('has every page that is written, and no other', () => {
    const pages = readdirSync(new URL('../../src/docs/pages', import.meta.url)).map((file) => file.replace('.md', ''))
    const names = written.map(({ name }) => name)
    expect(names.toSorted()).toEqual([...pages, 'changes'].toSorted())
  })

  test('is what /docs shows, with a link to each and a line about it', async () => {
    const markup = await markupOf('/docs')
    expect(unsoundness(markup)).toEqual([])
    expect(GUIDES.length).toBeGreaterThan(10)
    for (const { name, about } of GUIDES) {
      expect(hrefsIn(markup)).toContain(`/docs/${name}`)
      expect(textOf(markup)).toContain(about)
    }
  })

  test('is led to from the page', async () => {
    expect(hrefsIn(await markupOf('/'))).toContain('/docs')
  })
})

describe.each(GUIDES.map(({ name, title }) => [name, title]))('the guide %s', (name, title) => {
  test('is in the frame of the site, under its title, and leads to all the others', async () => {
    const answer = await app.request(`/docs/${name}`)
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-security-policy')).toMatch(/^default-src 'none'/)
    const markup = await answer.text()
    expect(markup).toContain('<nav aria-label="Pages">')
    expect(markup).toContain(`<title>${title} · Longchord</title>`)
    expect(/<h1[^>]*>(.+?)<\/h1>/.exec(markup)?.[1]).toBe(title)
    const hrefs = hrefsIn(markup)
    expect(hrefs).toContain('/docs')
    if (name !== 'api') for (const other of GUIDES) expect(hrefs).toContain(`/docs/${other.name}`)
  })
})

describe.each(written.map(({ name }) => name))('the guide %s, as it is written,', (name) => {
  test('is sound, without script, and leads to nothing that is not there', async () => {
    const markup = await markupOf(`/docs/${name}`)
    expect(unsoundness(markup)).toEqual([])
    for (const href of hrefsIn(markup).filter((href) => href.startsWith('/'))) {
      const [path, anchor] = href.split('#')
      const target = await app.request(path!)
      expect([href, target.status]).toEqual([href, 200])
      if (anchor !== undefined) expect([href, (await target.text()).includes(`id="${anchor}"`)]).toEqual([href, true])
    }
  })

  test('answers its commands as printed', async () => {
    const commands = commandsIn(guideSource(name))
    const serving = await serve(await appFor(commands), { host: '127.0.0.1', port: 0 })
    onTestFinished(() => serving.drain())
    const type = terminal(serving.url)
    for (const { line, answer } of commands) {
      const printed = (await type(line)).trimEnd()
      if (answer === null) continue
      if (answer.startsWith('{')) expect([line, JSON.parse(printed)]).toEqual([line, JSON.parse(answer)])
      else expect([line, printed]).toEqual([line, answer])
    }
  })

  test('shows parts of a plan that a plan may have', async () => {
    for (const part of partsOfPlans(guideSource(name))) {
      const plan = { ...(example('quarter-loop') as object), ...(JSON.parse(part) as object) }
      const headers = { 'Content-Type': 'application/json' }
      const answer = await app.request('/v1/estimates', { method: 'POST', headers, body: JSON.stringify(plan) })
      expect([part, answer.status]).toEqual([part, 200])
    }
  })
})

/** One with a store of its own where something is kept, as what is there changes the answers. */
async function appFor(commands: readonly Command[]): Promise<Hono> {
  if (!commands.some(({ line }) => /\/v1\/(?:projects|shed)/.test(line))) return app
  const own = await temporaryStore()
  onTestFinished(() => own.close())
  return createApp({ store: own, workers: inThisThread })
}

test('the guides have examples of either kind', () => {
  const sources = written.map(({ name }) => guideSource(name))
  expect(
    sources.flatMap((source) => commandsIn(source)).filter(({ answer }) => answer !== null).length,
  ).toBeGreaterThan(15)
  expect(sources.flatMap(partsOfPlans).length).toBeGreaterThan(3)
})

/** JSON that is not the answer to the command above it. */
function partsOfPlans(markdown: string): string[] {
  return [...markdown.matchAll(/(?<!```\n\n)^```json\n([\s\S]+?)\n```/gm)].map(([, part]) => part!)
}

describe('the address of the service in the guides', () => {
  test.each(['http://railway_box.local:81', 'http://[::1]:8080'])('is that of the request: %s', async (base) => {
    const markup = await markupOf('/docs/plans', base)
    expect(markup).toContain(`curl -sO ${base}/docs/examples/quarter-loop.json`)
    expect(markup).not.toContain('127.0.0.1')
  })

  test('is the usual one where the request has none that could stand there', async () => {
    expect(await markupOf('/docs/plans', 'http://a"b')).toContain('curl -sO http://127.0.0.1:8080/docs/')
  })
})

const EXAMPLE_TYPES: Readonly<Record<string, RegExp>> = {
  csv: /^text\/csv/,
  json: /^application\/json$/,
  ods: /opendocument\.spreadsheet$/,
  xlsx: /spreadsheetml\.sheet$/,
}

describe('the example files', () => {
  test('are served as they are', async () => {
    for (const name of readdirSync(new URL('../../openapi/examples', import.meta.url))) {
      const answer = await app.request(`/docs/examples/${name}`)
      expect([name, answer.status]).toEqual([name, 200])
      const type = EXAMPLE_TYPES[name.slice(name.lastIndexOf('.') + 1)]!
      expect([name, type.test(answer.headers.get('content-type')!)]).toEqual([name, true])
    }
  })

  test.each(['nothing.json', '..%2f..%2fpackage.json', '..%2fopenapi.json', 'QUARTER-LOOP.JSON'])(
    '%s is none',
    async (name) => {
      expect((await app.request(`/docs/examples/${name}`)).status).toBe(404)
    },
  )
})
