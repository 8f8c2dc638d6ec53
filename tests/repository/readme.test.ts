import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { type Serving, serve } from '../../src/serving.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { commandsIn, terminal } from '../docs/commands.ts'

const TOP = resolve(import.meta.dirname, '../..')
const text = (file: string) => readFileSync(resolve(TOP, file), 'utf8')
const packageJson = JSON.parse(text('package.json')) as { scripts: Record<string, string> }

/** The examples that are tried here ask nothing of the store. */
const noStore = {} as ProjectStore

describe('the README', () => {
  const examples = commandsIn(text('README.md'))
  let serving: Serving

  beforeAll(async () => {
    const clock = () => new Date('2026-05-31T12:00:00Z')
    serving = await serve(createApp({ store: noStore, workers: inThisThread, clock }), { host: '127.0.0.1', port: 0 })
  })
  afterAll(() => serving.drain())

  it('has one example for programs, with its answer; the guides have the others', () => {
    expect(examples).toHaveLength(1)
  })

  it.each(examples.map(({ line, answer }) => [line, answer]))('%s answers as printed', async (line, answer) => {
    expect((await terminal(serving.url)(line)).trimEnd()).toBe(answer)
  })

  it('has pictures that are there, and not too large to load', () => {
    const pictures = [...text('README.md').matchAll(/!\[[^\]]+\]\(([\w./-]+)\)/g)].map(([, path]) => path!)
    expect(pictures.length).toBeGreaterThan(5)
    for (const path of pictures) expect([path, statSync(resolve(TOP, path)).size < 250_000]).toEqual([path, true])
  })

  it.each(['README.md', 'src/docs/pages/running.md'])('names every setting there is in %s', (guide) => {
    const settings = [...text('src/config.ts').matchAll(/\btake(?:<[^(]+>)?\('(\w+)'/g)].map(([, name]) => name!)
    expect(settings.length).toBeGreaterThan(3)
    const named = [...text(guide).matchAll(/^\| `(\w+)` \|/gm)].map(([, name]) => name!)
    expect(named.toSorted()).toEqual(settings.toSorted())
  })

  it('gives the two commands, and they exist', () => {
    expect(text('README.md')).toContain('npm install && npm start')
    expect(text('README.md')).toContain('npm install && npm test')
    expect(Object.keys(packageJson.scripts)).toEqual(expect.arrayContaining(['start', 'test']))
  })
})

describe('every path and command that is named in', () => {
  const GUIDES = [
    'README.md',
    'DEVELOPERS.md',
    'openapi/CHANGELOG.md',
    ...['src', 'tests'].flatMap((room) =>
      readdirSync(resolve(TOP, room), { recursive: true, encoding: 'utf8' })
        .filter((file) => file.endsWith('README.md'))
        .map((file) => `${room}/${file}`),
    ),
    ...readdirSync(resolve(TOP, 'src/docs/pages')).map((file) => `src/docs/pages/${file}`),
  ]
  /** Paths from the top in backticks, links from the guide's own folder. */
  const QUOTED = /`((?:src|tests|openapi|drizzle|\.ci)\/[\w./-]*)`/g
  const LINKED = /\]\((?!https?:|\/)([\w./-]+)(?:#[\w-]+)?\)/g

  it.each(GUIDES)('%s is there', (guide) => {
    const quoted = [...text(guide).matchAll(QUOTED)].map(([, path]) => resolve(TOP, path!))
    const linked = [...text(guide).matchAll(LINKED)].map(([, path]) => resolve(TOP, dirname(guide), path!))
    expect([...quoted, ...linked].filter((path) => !existsSync(path))).toEqual([])
    const scripts = [...text(guide).matchAll(/npm run ([\w:-]+)/g)].map(([, name]) => name!)
    expect(scripts.filter((name) => !(name in packageJson.scripts))).toEqual([])
  })

  it('the two at the top: they name many', () => {
    for (const guide of ['README.md', 'DEVELOPERS.md'])
      expect([...text(guide).matchAll(QUOTED), ...text(guide).matchAll(LINKED)].length).toBeGreaterThan(3)
  })
})

describe('the top level', () => {
  const OWNERS =
    'README.md DEVELOPERS.md package.json tsconfig.json src drizzle tests openapi docker-compose.yml'.split(' ')
  const BESIDES = ['LICENSE', 'package-lock.json', 'biome.json']
  /** Made by tools, never committed. */
  const MADE = ['node_modules', 'dist', 'data']

  it('has the rooms it should have and no others', () => {
    const there = readdirSync(TOP).filter((name) => !name.startsWith('.') && !MADE.includes(name))
    expect(there.sort()).toEqual([...OWNERS, ...BESIDES].sort())
  })
})
