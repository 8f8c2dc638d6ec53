import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { type Serving, serve } from '../../src/serving.ts'
import { onTheSpot } from '../../src/workers/on-the-spot.ts'

const TOP = resolve(import.meta.dirname, '../..')
const text = (file: string) => readFileSync(resolve(TOP, file), 'utf8')
const packageJson = JSON.parse(text('package.json')) as { scripts: Record<string, string> }

/** The examples that are tried here ask nothing of the store. */
const noStore = {} as ProjectStore

const CURL =
  /^curl -s '?(?<url>http:\/\/127\.0\.0\.1:8080[^\s']+)'?(?: -H '(?<name>[\w-]+): (?<value>[^']+)' (?:-d|--data-binary) @(?<file>\S+))?(?: \| node -p '(?<expression>[^']+)')?$/

/** Does what the command line does, without a shell and curl, which a machine that runs the checks need not have. */
async function run(command: string, service: string): Promise<string> {
  const parts = CURL.exec(command)?.groups
  if (!parts) throw new Error(`this example is written in another way: ${command}`)
  const { url, name, value, file, expression } = parts
  const sent = file ? { method: 'POST', headers: { [name!]: value! }, body: text(file) } : {}
  const response = await fetch(url!.replace('http://127.0.0.1:8080', service), sent)
  const answer = await response.text()
  return expression ? execFileSync(process.execPath, ['-p', expression], { input: answer, encoding: 'utf8' }) : answer
}

describe('the README', () => {
  const examples = [...text('README.md').matchAll(/```sh\n(curl [^\n]+)\n```\n\n```(?:json|js|text)\n([\s\S]+?)\n```/g)]
  let serving: Serving

  beforeAll(async () => {
    serving = await serve(createApp({ store: noStore, workers: onTheSpot }), { host: '127.0.0.1', port: 0 })
  })
  afterAll(() => serving.drain())

  it('has eight examples with their answers', () => {
    expect(examples).toHaveLength(8)
  })

  it.each(examples.map(([, command, answer]) => [command!, answer!]))(
    '%s answers as printed',
    async (command, answer) => {
      expect((await run(command, serving.url)).trimEnd()).toBe(answer)
    },
  )

  it('gives the two commands, and they exist', () => {
    expect(text('README.md')).toContain('npm install && npm start')
    expect(text('README.md')).toContain('npm install && npm test')
    expect(Object.keys(packageJson.scripts)).toEqual(expect.arrayContaining(['start', 'test']))
  })
})

describe('every path and command that the guides name', () => {
  const PATHS = /`((?:src|tests|openapi|drizzle|\.ci)\/[\w./-]*)`|\]\((?!https?:)([\w./-]+)\)/g

  it.each(['README.md', 'DEVELOPERS.md'])('%s', (guide) => {
    const paths = [...text(guide).matchAll(PATHS)].map(([, quoted, linked]) => (quoted ?? linked)!)
    expect(paths.length).toBeGreaterThan(3)
    expect(paths.filter((path) => !existsSync(resolve(TOP, path)))).toEqual([])
    const scripts = [...text(guide).matchAll(/npm run ([\w:]+)/g)].map(([, name]) => name!)
    expect(scripts.filter((name) => !(name in packageJson.scripts))).toEqual([])
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
